#include "core/store/migrator.h"

#include "core/store/connection.h"

#include <fmt/format.h>

#include <filesystem>

namespace stillroom::store {

namespace {

StoreError refusal(StoreErrorKind kind, const Connection& connection, const std::string& what) {
    return {kind, 0, connection.path(), what};
}

int readableFrom(Connection& connection, int version) {
    try {
        return connection.database().execAndGet("SELECT readable_from FROM book").getInt();
    } catch (const SQLite::Exception&) { // a newer book that does not even say so
        return version;
    }
}

} // namespace

Standing standingOf(Connection& connection, const std::vector<Migration>& migrations) {
    const int newest = migrations.back().version;
    return connection.guarded("reading the workbook's version", [&]() -> Standing {
        if (connection.pragma("PRAGMA application_id") != kApplicationId)
            throw refusal(StoreErrorKind::NotAWorkbook, connection, "the file is not a Stillroom workbook");
        const auto version = static_cast<int>(connection.pragma("PRAGMA user_version"));
        if (version < 1)
            throw refusal(StoreErrorKind::Damaged, connection,
                          fmt::format("the workbook's schema version reads {}", version));
        if (version == newest) return {version, OpenOutcome::Current};
        if (version < newest) return {version, OpenOutcome::Upgraded};
        if (readableFrom(connection, version) <= newest) return {version, OpenOutcome::NewerCompatible};
        throw refusal(
            StoreErrorKind::NewerIncompatible, connection,
            fmt::format("the workbook was written by a newer Stillroom (schema {}, this one reads {})",
                        version, newest));
    });
}

void runMigrations(Connection& connection, int from, const std::vector<Migration>& migrations) {
    for (const Migration& migration : migrations) {
        if (migration.version <= from) continue;
        connection.database().exec(std::string(migration.sql));
        connection.exec(fmt::format("PRAGMA user_version = {}", migration.version).c_str());
    }
    SQLite::Statement dangling(connection.database(), "PRAGMA foreign_key_check");
    if (dangling.executeStep())
        throw refusal(StoreErrorKind::Refused, connection, "the upgrade would leave dangling references");
}

void migrate(Connection& connection, int from, const std::vector<Migration>& migrations) {
    connection.change("upgrading the workbook", Durability::Kept,
                      [&] { runMigrations(connection, from, migrations); });
}

std::string backupPathFor(const std::string& path, int newVersion) {
    const std::string base = fmt::format("{}-before-v{}", path, newVersion);
    std::string candidate = base;
    for (int n = 2; std::filesystem::exists(candidate); ++n)
        candidate = fmt::format("{}-{}", base, n);
    return candidate;
}

} // namespace stillroom::store
