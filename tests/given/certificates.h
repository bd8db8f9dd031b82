// Certificates made for one test: a service proves who it is with one, or fails to.
#pragma once

#include <openssl/ssl.h>

#include <memory>
#include <string>

namespace passage_brief::given {

struct CertificateDeleter {
  void operator()(X509* certificate) const { X509_free(certificate); }
  void operator()(EVP_PKEY* key) const { EVP_PKEY_free(key); }
};

struct Certificate {
  std::unique_ptr<X509, CertificateDeleter> certificate;
  std::unique_ptr<EVP_PKEY, CertificateDeleter> key;
  [[nodiscard]] std::string pem() const;
};

/// Signed by itself for a subject alternative name ("IP:127.0.0.1", "DNS:elsewhere.invalid"), valid
/// from the year 2000 to the end of `last_year`.
[[nodiscard]] Certificate certificate_for(const std::string& name, int last_year);

}  // namespace passage_brief::given
