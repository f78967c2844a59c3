#pragma once

#include "core/base/id.h"
#include "core/store/error.h"

#include <SQLiteCpp/SQLiteCpp.h>

#include <array>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <type_traits>
#include <unordered_map>

// Internal to core/store: the one place where SQLite is opened, set up and its errors translated.
namespace stillroom::store {

class Connection;

// A SHA-256 on its way into a BLOB column, from the hex that the rest of the program knows it by.
struct Digest {
    std::array<std::uint8_t, 32> bytes{};
    static Digest ofHex(std::string_view hex); // anything that is not 64 hex digits gives zeros
    static Digest ofText(std::string_view text);
};

// What a statement's error means to the rest of the program; `doing` says what was under way.
[[nodiscard]] StoreError translated(const SQLite::Exception& error, const std::string& path,
                                    std::string_view doing);

// Bytes on their way into a BLOB column.
struct Bytes {
    std::string_view data;
};

// A prepared statement borrowed from the connection's cache, given back reset and unbound.
class Query {
  public:
    Query(Connection& connection, const char* sql);
    ~Query();
    Query(const Query&) = delete;
    Query& operator=(const Query&) = delete;

    // Binds in order, from the first parameter on.
    template <class... Values>
    Query& with(const Values&... values) {
        int at = 0;
        (bind(++at, values), ...);
        return *this;
    }
    bool next() { return m_statement->executeStep(); }
    void run() { m_statement->exec(); }

    bool isNull(int column) const { return m_statement->getColumn(column).isNull(); }
    std::int64_t integer(int column) const { return m_statement->getColumn(column).getInt64(); }
    int smallInteger(int column) const { return m_statement->getColumn(column).getInt(); }
    double real(int column) const { return m_statement->getColumn(column).getDouble(); }
    std::string text(int column) const { return m_statement->getColumn(column).getString(); }
    std::string blob(int column) const { return text(column); }
    std::string hex(int column) const; // of a BLOB
    template <class IdType>
    IdType id(int column) const {
        return IdType(bits(column));
    }
    template <class IdType>
    std::optional<IdType> optionalId(int column) const {
        return isNull(column) ? std::nullopt : std::optional<IdType>(IdType(bits(column)));
    }

  private:
    void bind(int at, int value) { m_statement->bind(at, value); }
    void bind(int at, bool value) { m_statement->bind(at, value ? 1 : 0); }
    void bind(int at, std::int64_t value) { m_statement->bind(at, value); }
    void bind(int at, double value) { m_statement->bind(at, value); }
    void bind(int at, const std::string& value) { m_statement->bind(at, value); }
    void bind(int at, std::string_view value) { m_statement->bind(at, std::string(value)); }
    void bind(int at, const base::Bits128& value) {
        m_statement->bind(at, value.bytes.data(), static_cast<int>(value.bytes.size()));
    }
    template <class Tag>
    void bind(int at, const base::Id<Tag>& value) {
        bind(at, value.bits());
    }
    template <class Value>
    void bind(int at, const std::optional<Value>& value) {
        if (value)
            bind(at, *value);
        else
            m_statement->bind(at);
    }
    void bind(int at, const char* value) { m_statement->bind(at, value); }
    void bind(int at, const Bytes& value) {
        m_statement->bind(at, value.data.data(), static_cast<int>(value.data.size()));
    }
    void bind(int at, const Digest& value) {
        m_statement->bind(at, value.bytes.data(), static_cast<int>(value.bytes.size()));
    }
    base::Bits128 bits(int column) const;

    std::unique_ptr<SQLite::Statement> m_statement;
    Connection& m_connection;
    const char* m_sql;
};

// Writable: takes the file for this process alone. Guarded: likewise, but refuses to change anything.
// ReadOnly and Immutable: for files or folders that cannot be written; Immutable also promises SQLite that
// nobody else writes, so that it needs no files beside this one.
enum class Access { Create, Writable, Guarded, ReadOnly, Immutable };
enum class Journal { WriteAhead, Rollback };
// Draft: survives a killed process (synchronous=NORMAL). Kept: survives a power cut too (FULL).
enum class Durability { Draft, Kept };

class Connection {
  public:
    // Opens the file and reads its first page; changes nothing in it. Throws StoreError.
    Connection(std::string path, Access access);
    ~Connection();
    Connection(const Connection&) = delete;
    Connection& operator=(const Connection&) = delete;

    // Sets the journal that fits the place. Only for a file known to be a workbook, or a new one.
    void prepareForWriting(Journal journal);

    const std::string& path() const { return m_path; }
    Journal journal() const { return m_journal; }
    SQLite::Database& database() { return *m_database; }
    sqlite3* handle() { return m_database->getHandle(); }

    void exec(const char* sql);
    std::int64_t pragma(const char* sql); // the integer a pragma answers
    std::string pragmaText(const char* sql);

    // The one door: `work` runs inside one transaction, which has happened when this returns; when it
    // throws, nothing has changed. SQLite's errors come out as StoreErrors naming the operation.
    template <class Work>
    auto change(std::string_view operation, Durability durability, Work&& work) {
        return guarded(operation, [&] {
            setDurability(durability);
            SQLite::Transaction transaction(*m_database, SQLite::TransactionBehavior::IMMEDIATE);
            if constexpr (std::is_void_v<decltype(work())>) {
                work();
                transaction.commit();
                afterCommit();
            } else {
                auto result = work();
                transaction.commit();
                afterCommit();
                return result;
            }
        });
    }
    // The same translation for reading.
    template <class Work>
    auto guarded(std::string_view operation, Work&& work) {
        try {
            return work();
        } catch (const SQLite::Exception& error) {
            throw translated(error, m_path, operation);
        }
    }
    // Brings the write-ahead log into the file and syncs it.
    void checkpoint();
    int logPages() const { return m_logPages; }

  private:
    friend class Query;
    std::unique_ptr<SQLite::Statement> borrow(const char* sql);
    void giveBack(const char* sql, std::unique_ptr<SQLite::Statement> statement);
    void setUp(Access access);
    void setJournal(Journal journal);
    void setDurability(Durability durability);
    void afterCommit() noexcept;
    static int countLogPages(void* self, sqlite3*, const char*, int pages);

    std::string m_path;
    Journal m_journal = Journal::WriteAhead;
    std::unique_ptr<SQLite::Database> m_database;
    std::unordered_map<const char*, std::unique_ptr<SQLite::Statement>> m_statements;
    std::optional<Durability> m_durability;
    int m_logPages = 0;
};

// Whether the file's folder is on a network file system, where locks and shared memory cannot be relied on.
bool isOnNetwork(const std::string& path);

} // namespace stillroom::store
