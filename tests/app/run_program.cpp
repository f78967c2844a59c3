#include "tests/app/run_program.h"

#include <fcntl.h>
#include <poll.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <csignal>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <stdexcept>

namespace stillroom::tests {

namespace {

struct Pipe {
    std::array<int, 2> end{-1, -1};
    Pipe() {
        if (::pipe2(end.data(), O_CLOEXEC) != 0) throw std::runtime_error("no pipe");
    }
    ~Pipe() {
        close(0);
        close(1);
    }
    Pipe(const Pipe&) = delete;
    Pipe& operator=(const Pipe&) = delete;
    void close(std::size_t which) {
        if (end[which] >= 0) ::close(end[which]);
        end[which] = -1;
    }
};

[[noreturn]] void becomeProgram(const std::vector<std::string>& arguments, Pipe& in, Pipe& out, Pipe& err,
                                const std::vector<std::pair<std::string, std::string>>& environment) {
    ::dup2(in.end[0], 0);
    ::dup2(out.end[1], 1);
    ::dup2(err.end[1], 2);
    for (const auto& [name, value] : environment)
        value.empty() ? ::unsetenv(name.c_str()) : ::setenv(name.c_str(), value.c_str(), 1);
    std::vector<char*> argv{const_cast<char*>(STILLROOM_PROGRAM)};
    for (const std::string& argument : arguments)
        argv.push_back(const_cast<char*>(argument.c_str()));
    argv.push_back(nullptr);
    ::execv(STILLROOM_PROGRAM, argv.data());
    ::_exit(127);
}

// Feeds and drains all three streams together, so that neither side waits for the other.
void converse(Pipe& in, Pipe& out, Pipe& err, const std::string& input, ProgramRun& run) {
    ::fcntl(in.end[1], F_SETFL, O_NONBLOCK);
    std::size_t sent = 0;
    if (input.empty()) in.close(1);
    std::array<char, 65536> block{};
    while (out.end[0] >= 0 || err.end[0] >= 0) {
        std::array<pollfd, 3> polled{
            {{in.end[1], POLLOUT, 0}, {out.end[0], POLLIN, 0}, {err.end[0], POLLIN, 0}}};
        if (::poll(polled.data(), polled.size(), -1) < 0) break;
        if (polled[0].revents != 0 && in.end[1] >= 0) {
            const ssize_t wrote = ::write(in.end[1], input.data() + sent, input.size() - sent);
            if (wrote > 0) sent += static_cast<std::size_t>(wrote);
            if (wrote <= 0 || sent == input.size()) in.close(1);
        }
        for (std::size_t i : {std::size_t{1}, std::size_t{2}}) {
            if (polled[i].revents == 0) continue;
            Pipe& pipe = i == 1 ? out : err;
            const ssize_t got = ::read(pipe.end[0], block.data(), block.size());
            if (got <= 0)
                pipe.close(0);
            else
                (i == 1 ? run.out : run.err).append(block.data(), static_cast<std::size_t>(got));
        }
    }
}

} // namespace

ProgramRun runProgram(const std::vector<std::string>& arguments, const std::string& input,
                      const std::vector<std::pair<std::string, std::string>>& environment) {
    std::signal(SIGPIPE, SIG_IGN);
    ProgramRun run;
    Pipe in;
    Pipe out;
    Pipe err;
    const pid_t child = ::fork();
    if (child < 0) throw std::runtime_error("no process");
    if (child == 0) becomeProgram(arguments, in, out, err, environment);
    in.close(0);
    out.close(1);
    err.close(1);
    converse(in, out, err, input, run);
    int status = 0;
    ::waitpid(child, &status, 0);
    if (WIFEXITED(status)) run.exitCode = WEXITSTATUS(status);
    if (WIFSIGNALED(status)) run.signal = WTERMSIG(status);
    return run;
}

TemporaryFolder::TemporaryFolder() {
    std::string name = (std::filesystem::temp_directory_path() / "stillroom-app-XXXXXX").string();
    if (!::mkdtemp(name.data())) throw std::runtime_error("no temporary folder");
    m_path = name;
}

TemporaryFolder::~TemporaryFolder() {
    std::error_code ignored;
    std::filesystem::remove_all(m_path, ignored);
}

std::string contentOf(const std::string& path) {
    std::ifstream in(path, std::ios::binary);
    std::ostringstream content;
    content << in.rdbuf();
    return content.str();
}

void writeFile(const std::string& path, const std::string& content) {
    std::ofstream(path, std::ios::binary) << content;
}

} // namespace stillroom::tests
