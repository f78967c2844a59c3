#pragma once

#include <string_view>
#include <vector>

namespace stillroom::store {

// 0x53746C72, "Stlr": tells a workbook from any other SQLite file.
inline constexpr int kApplicationId = 0x53746C72;

// A numbered schema file: brings a file of version - 1 to this version.
struct Migration {
    int version = 0;
    std::string_view sql;
};

// Generated from core/store/schema/*.sql, in order, numbered from 1 without holes.
const std::vector<Migration>& schemaMigrations();

} // namespace stillroom::store
