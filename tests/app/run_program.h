#pragma once

#include <string>
#include <utility>
#include <vector>

namespace stillroom::tests {

struct ProgramRun {
    int exitCode = -1; // -1: it did not end by itself
    int signal = 0;    // what ended it, if a signal did
    std::string out;
    std::string err;
};

// Runs the built program with these arguments, `input` on standard input, and these variables set (an empty
// value unsets). No shell in between.
ProgramRun runProgram(const std::vector<std::string>& arguments, const std::string& input = "",
                      const std::vector<std::pair<std::string, std::string>>& environment = {});

// A new empty folder, removed with all in it.
class TemporaryFolder {
  public:
    TemporaryFolder();
    ~TemporaryFolder();
    TemporaryFolder(const TemporaryFolder&) = delete;
    TemporaryFolder& operator=(const TemporaryFolder&) = delete;
    std::string path(const std::string& name) const { return m_path + "/" + name; }

  private:
    std::string m_path;
};

std::string contentOf(const std::string& path);
void writeFile(const std::string& path, const std::string& content);

} // namespace stillroom::tests
