#pragma once

#include <iosfwd>
#include <stdexcept>
#include <string>

namespace stillroom::headless {

// A file that cannot be used; the message is a whole sentence with its path.
struct FileProblem : std::runtime_error {
    using std::runtime_error::runtime_error;
};

// All bytes, or a FileProblem: no such file, a folder, no permission, larger than `limit` bytes.
std::string fileContent(const std::string& path, std::size_t limit);
std::string streamContent(std::istream& in, std::size_t limit);

} // namespace stillroom::headless
