#pragma once

#include <stdexcept>
#include <string>

namespace stillroom::store {

enum class StoreErrorKind {
    NotFound,
    AlreadyExists,
    NotADatabase,
    NotAWorkbook,
    NewerIncompatible,
    Damaged,
    Locked,
    ReadOnly,
    DiskFull,
    Io,
    Refused, // the schema said no (append-only, foreign key)
    Circle,  // a preparation would be made of itself: what() is the path
};

// The world failed. Thrown by core/store only, caught at one edge of the program.
class StoreError : public std::runtime_error {
  public:
    StoreError(StoreErrorKind kind, int sqliteCode, std::string path, const std::string& what)
        : std::runtime_error(what),
          m_kind(kind),
          m_sqliteCode(sqliteCode),
          m_path(std::move(path)) {}
    StoreErrorKind kind() const { return m_kind; }
    int sqliteCode() const { return m_sqliteCode; } // extended result code, 0 when SQLite had no part in it
    const std::string& path() const { return m_path; }

  private:
    StoreErrorKind m_kind;
    int m_sqliteCode;
    std::string m_path;
};

} // namespace stillroom::store
