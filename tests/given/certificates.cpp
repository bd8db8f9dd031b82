#include "given/certificates.h"

#include <openssl/evp.h>
#include <openssl/pem.h>
#include <openssl/x509v3.h>

#include <stdexcept>
#include <string>

namespace passage_brief::given {
namespace {

void must(bool done) {
  if (!done) throw std::runtime_error("a certificate could not be made");
}

void put_extension(X509* certificate, int which, const std::string& value) {
  X509V3_CTX context;
  X509V3_set_ctx_nodb(&context);
  X509V3_set_ctx(&context, certificate, certificate, nullptr, nullptr, 0);
  X509_EXTENSION* made = X509V3_EXT_conf_nid(nullptr, &context, which, value.c_str());
  must(made != nullptr && X509_add_ext(certificate, made, -1) == 1);
  X509_EXTENSION_free(made);
}

}  // namespace

std::string Certificate::pem() const {
  BIO* memory = BIO_new(BIO_s_mem());
  must(memory != nullptr && PEM_write_bio_X509(memory, certificate.get()) == 1);
  char* data = nullptr;
  const long size = BIO_get_mem_data(memory, &data);
  std::string text(data, static_cast<std::size_t>(size));
  BIO_free(memory);
  return text;
}

Certificate certificate_for(const std::string& name, int last_year) {
  Certificate made{std::unique_ptr<X509, CertificateDeleter>(X509_new()),
                   std::unique_ptr<EVP_PKEY, CertificateDeleter>(EVP_EC_gen("P-256"))};
  X509* certificate = made.certificate.get();
  must(certificate != nullptr && made.key != nullptr);
  X509_set_version(certificate, 2);
  ASN1_INTEGER_set(X509_get_serialNumber(certificate), 1);
  must(ASN1_TIME_set_string_X509(X509_getm_notBefore(certificate), "20000101000000Z") == 1);
  const std::string last = std::to_string(last_year) + "1231235959Z";
  must(ASN1_TIME_set_string_X509(X509_getm_notAfter(certificate), last.c_str()) == 1);
  X509_NAME* subject = X509_get_subject_name(certificate);
  X509_NAME_add_entry_by_txt(subject, "CN", MBSTRING_ASC,
                             reinterpret_cast<const unsigned char*>("invented for a test"), -1, -1,
                             0);
  X509_set_issuer_name(certificate, subject);
  X509_set_pubkey(certificate, made.key.get());
  put_extension(certificate, NID_basic_constraints, "critical,CA:TRUE");
  put_extension(certificate, NID_subject_alt_name, name);
  must(X509_sign(certificate, made.key.get(), EVP_sha256()) > 0);
  return made;
}

}  // namespace passage_brief::given
