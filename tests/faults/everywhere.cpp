#include "tests/faults/everywhere.h"

#include "core/base/hash.h"

#include <fstream>
#include <numeric>
#include <sstream>

namespace stillroom::test {

namespace {

bool isLog(const std::string& name) {
    return name.find("-wal") != std::string::npos || name.find("-journal") != std::string::npos ||
           name.find("-shm") != std::string::npos;
}

} // namespace

std::string joined(const std::vector<std::string>& problems) {
    return std::accumulate(
        problems.begin(), problems.end(), std::string(),
        [](std::string all, const std::string& one) { return std::move(all) + one + "\n"; });
}

BrokenOff::BrokenOff(const std::function<void(const std::string& path)>& make, Problems problems)
    : m_problems(std::move(problems)) {
    make(m_template);
    putBack();
}

void BrokenOff::putBack() {
    for (const auto& entry : std::filesystem::directory_iterator(m_folder.file("")))
        std::filesystem::remove(entry.path());
    std::filesystem::copy_file(m_template, m_path);
}

std::string BrokenOff::problems(bool acknowledged) {
    auto [found, isNew] = m_known.try_emplace({left(), acknowledged});
    if (isNew) found->second = joined(m_problems(m_path, acknowledged));
    return found->second;
}

// The name of every file in the folder, and the bytes of each database after SQLite's own recovery of a copy:
// what the program makes of the log or journal is for the problems to say.
std::map<std::string, std::string> BrokenOff::left() const {
    std::map<std::string, std::string> files;
    TempFolder copies;
    for (const auto& entry : std::filesystem::directory_iterator(m_folder.file(""))) {
        const auto name = entry.path().filename().string();
        files[name];
        std::filesystem::copy_file(entry.path(), copies.file(name));
    }
    for (auto& [name, digest] : files) {
        if (isLog(name)) continue;
        try {
            RawFile(copies.file(name)).text("PRAGMA wal_checkpoint(TRUNCATE)");
        } catch (const std::runtime_error&) { // half a copy is no database: its bytes are what they are
        }
        std::ifstream file(copies.file(name), std::ios::binary);
        std::ostringstream bytes;
        bytes << file.rdbuf();
        digest = base::sha256Hex(bytes.str());
    }
    return files;
}

} // namespace stillroom::test
