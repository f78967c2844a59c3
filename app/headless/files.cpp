#include "app/headless/files.h"

#include <fmt/format.h>

#include <array>
#include <cerrno>
#include <cstring>
#include <filesystem>
#include <fstream>

namespace stillroom::headless {

std::string streamContent(std::istream& in, std::size_t limit) {
    std::string content;
    std::array<char, 65536> block{};
    while (in) {
        in.read(block.data(), block.size());
        content.append(block.data(), static_cast<std::size_t>(in.gcount()));
        if (content.size() > limit)
            throw FileProblem(
                fmt::format("The input is larger than {} MiB; nothing was read.", limit >> 20U));
    }
    if (in.bad()) throw FileProblem("The input broke off while it was read.");
    return content;
}

std::string fileContent(const std::string& path, std::size_t limit) {
    std::error_code ignored;
    if (std::filesystem::is_directory(path, ignored))
        throw FileProblem(fmt::format("{}: this is a folder, not a file.", path));
    errno = 0;
    std::ifstream in(path, std::ios::binary);
    if (!in) throw FileProblem(fmt::format("{}: {}.", path, std::strerror(errno)));
    return streamContent(in, limit);
}

} // namespace stillroom::headless
