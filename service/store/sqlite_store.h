// The store in one SQLite file; made where it is not there, refused where it is another program's.
//
// WAL with full synchronisation, no memory mapping, one connection (SQLite before 3.51.3 may damage
// a WAL data base that two connections write at once, so each writing is done in one short
// transaction and the file is locked by it). A data base that stays locked for 2 s is a failure.
#pragma once

#include <memory>
#include <string>

#include "store/store.h"

namespace passage_brief {

/// `file`: a path, or ":memory:".
[[nodiscard]] std::unique_ptr<Store> open_sqlite_store(const std::string& file);

}  // namespace passage_brief
