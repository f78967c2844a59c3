#include "core/store/connection.h"

#include "core/base/hash.h"

#include <fmt/format.h>
#include <sqlite3.h>

#include <sys/vfs.h>

#include <algorithm>
#include <filesystem>

namespace stillroom::store {

namespace {

// A draft saved without a pause would let the log grow for ever: past this many pages (16 MB) a save pays
// for a checkpoint.
constexpr int kLogPagesAtMost = 4000;
// Long enough for a short read in another process to end, short enough to say "open elsewhere" at once.
constexpr int kWaitForLockMs = 200;

StoreErrorKind kindOf(int code) {
    switch (code & 0xFF) {
    case SQLITE_NOTADB:
        return StoreErrorKind::NotADatabase;
    case SQLITE_CORRUPT:
    case SQLITE_FORMAT:
    case SQLITE_SCHEMA:
    case SQLITE_ERROR: // a statement of ours that does not fit what the file holds
        return StoreErrorKind::Damaged;
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
    case SQLITE_PROTOCOL:
        return StoreErrorKind::Locked;
    case SQLITE_READONLY:
    case SQLITE_PERM:
    case SQLITE_AUTH:
        return StoreErrorKind::ReadOnly;
    case SQLITE_FULL:
        return StoreErrorKind::DiskFull;
    case SQLITE_CONSTRAINT:
    case SQLITE_MISMATCH:
    case SQLITE_TOOBIG:
        return StoreErrorKind::Refused;
    default:
        return StoreErrorKind::Io;
    }
}

int openFlags(Access access) {
    switch (access) {
    case Access::Create:
        return SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE | SQLite::OPEN_FULLMUTEX;
    case Access::Writable:
    case Access::Guarded:
        return SQLite::OPEN_READWRITE | SQLite::OPEN_FULLMUTEX;
    case Access::ReadOnly:
        return SQLite::OPEN_READONLY | SQLite::OPEN_FULLMUTEX;
    case Access::Immutable:
        break;
    }
    return SQLite::OPEN_READONLY | SQLite::OPEN_FULLMUTEX | SQLite::OPEN_URI;
}

// The path as a URI saying that nobody writes to the file. Every byte that could mean something in a URI
// is escaped.
std::string immutableUri(const std::string& path) {
    std::string uri = "file:";
    for (const char c : std::filesystem::absolute(path).string()) {
        const bool plain = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') ||
                           c == '/' || c == '.' || c == '-' || c == '_';
        if (plain)
            uri += c;
        else
            uri += fmt::format("%{:02X}", static_cast<unsigned char>(c));
    }
    return uri + "?immutable=1";
}

} // namespace

Digest Digest::ofHex(std::string_view hex) {
    Digest digest;
    if (hex.size() != 64) return digest;
    for (const std::size_t half : {0U, 16U}) {
        const auto bits = base::Bits128::fromHex(hex.substr(2 * half, 32));
        if (!bits) return {};
        std::copy(bits->bytes.begin(), bits->bytes.end(),
                  digest.bytes.begin() + static_cast<std::ptrdiff_t>(half));
    }
    return digest;
}

Digest Digest::ofText(std::string_view text) {
    return {base::sha256(text)};
}

StoreError translated(const SQLite::Exception& error, const std::string& path, std::string_view doing) {
    const int code = error.getExtendedErrorCode();
    return {kindOf(code), code, path, fmt::format("{}: {} ({})", doing, error.what(), code)};
}

Query::Query(Connection& connection, const char* sql)
    : m_statement(connection.borrow(sql)),
      m_connection(connection),
      m_sql(sql) {}

Query::~Query() {
    m_connection.giveBack(m_sql, std::move(m_statement));
}

base::Bits128 Query::bits(int column) const {
    const auto value = m_statement->getColumn(column);
    base::Bits128 bits;
    const auto size = std::min(static_cast<std::size_t>(value.getBytes()), bits.bytes.size());
    std::copy_n(static_cast<const std::uint8_t*>(value.getBlob()), size, bits.bytes.begin());
    return bits;
}

std::string Query::hex(int column) const {
    static constexpr char digits[] = "0123456789abcdef";
    std::string hex;
    for (const char c : blob(column)) {
        const auto byte = static_cast<unsigned char>(c);
        hex += digits[byte >> 4U];
        hex += digits[byte & 15U];
    }
    return hex;
}

Connection::Connection(std::string path, Access access) : m_path(std::move(path)) {
    guarded("opening the file", [&] {
        const std::string name = access == Access::Immutable ? immutableUri(m_path) : m_path;
        m_database = std::make_unique<SQLite::Database>(name, openFlags(access), kWaitForLockMs);
        setUp(access);
    });
}

Connection::~Connection() {
    m_statements.clear();
}

void Connection::setUp(Access access) {
    // A workbook from elsewhere may be hostile: its schema may not call functions or write to itself.
    sqlite3_db_config(handle(), SQLITE_DBCONFIG_DEFENSIVE, 1, nullptr);
    sqlite3_db_config(handle(), SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0, nullptr);
    exec("PRAGMA foreign_keys = ON");
    exec("PRAGMA cell_size_check = ON");
    exec("PRAGMA temp_store = MEMORY");
    // One process holds the file: the log's index then lives in its own memory instead of a shared
    // mapping, which raised SIGBUS on a full disk with 1 kB blocks.
    if (access != Access::ReadOnly && access != Access::Immutable) exec("PRAGMA locking_mode = EXCLUSIVE");
    if (access == Access::Guarded) exec("PRAGMA query_only = ON");
    exec("SELECT count(*) FROM sqlite_schema");
}

void Connection::prepareForWriting(Journal journal) {
    guarded("opening the file for writing", [&] {
        setJournal(journal);
        exec("PRAGMA wal_autocheckpoint = 0");
        sqlite3_wal_hook(handle(), &Connection::countLogPages, this);
        setDurability(Durability::Kept);
        // In a rollback journal a reader's lock becomes a writer's only at the first write: take it now.
        exec("BEGIN EXCLUSIVE");
        exec("COMMIT");
    });
}

void Connection::setJournal(Journal journal) {
    const bool ahead = journal == Journal::WriteAhead;
    const std::string mode = pragmaText(ahead ? "PRAGMA journal_mode = WAL" : "PRAGMA journal_mode = DELETE");
    // What it answers counts: where it could not change, both are safe and only the speed differs.
    m_journal = mode == "wal" ? Journal::WriteAhead : Journal::Rollback;
}

void Connection::exec(const char* sql) {
    m_database->exec(sql);
}

std::int64_t Connection::pragma(const char* sql) {
    return m_database->execAndGet(sql).getInt64();
}

std::string Connection::pragmaText(const char* sql) {
    return m_database->execAndGet(sql).getString();
}

void Connection::checkpoint() {
    if (m_journal == Journal::Rollback) return;
    guarded("bringing the log into the file", [&] {
        setDurability(Durability::Kept);
        const int code =
            sqlite3_wal_checkpoint_v2(handle(), nullptr, SQLITE_CHECKPOINT_FULL, nullptr, nullptr);
        if (code != SQLITE_OK) throw SQLite::Exception(handle(), code);
        m_logPages = 0;
    });
}

void Connection::setDurability(Durability durability) {
    // A rollback journal is only safe against a power cut with FULL.
    const Durability wanted = m_journal == Journal::Rollback ? Durability::Kept : durability;
    if (m_durability == wanted) return;
    m_database->exec(wanted == Durability::Kept ? "PRAGMA synchronous = FULL"
                                                : "PRAGMA synchronous = NORMAL");
    m_durability = wanted;
}

// The change has happened: nothing here may turn it into a failure.
void Connection::afterCommit() noexcept {
    if (m_logPages < kLogPagesAtMost) return;
    try {
        checkpoint();
    } catch (const StoreError&) { // the log is whole; the next checkpoint tries again
    }
}

int Connection::countLogPages(void* self, sqlite3*, const char*, int pages) {
    static_cast<Connection*>(self)->m_logPages = pages;
    return SQLITE_OK;
}

std::unique_ptr<SQLite::Statement> Connection::borrow(const char* sql) {
    const auto found = m_statements.find(sql);
    if (found == m_statements.end() || !found->second)
        return std::make_unique<SQLite::Statement>(*m_database, sql);
    return std::move(found->second);
}

void Connection::giveBack(const char* sql, std::unique_ptr<SQLite::Statement> statement) {
    statement->tryReset();
    try {
        statement->clearBindings();
        m_statements[sql] = std::move(statement);
    } catch (const SQLite::Exception&) { // then it is not worth keeping
    }
}

bool isOnNetwork(const std::string& path) {
    const auto folder = std::filesystem::absolute(path).parent_path();
    struct statfs info {};
    if (statfs(folder.c_str(), &info) != 0) return false;
    // NFS, SMB, CIFS, SMB2, AFS, Coda, 9p: <linux/magic.h>, and the file systems' own sources.
    constexpr unsigned long network[]{0x6969,     0x517B,     0xFF534D42, 0xFE534D42,
                                      0x5346414F, 0x73757245, 0x01021997};
    const auto type = static_cast<unsigned long>(info.f_type) & 0xFFFFFFFFUL;
    return std::find(std::begin(network), std::end(network), type) != std::end(network);
}

} // namespace stillroom::store
