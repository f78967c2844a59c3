#pragma once

#include <string_view>
#include <vector>

namespace stillroom::base {

struct EmbeddedFile {
    std::string_view path;
    const char* begin;
    const char* end;
};

// Generated at build time by embed.cmake.
const std::vector<EmbeddedFile>& embeddedFiles();

} // namespace stillroom::base
