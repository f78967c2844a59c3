#include "core/store/holder.h"

#include <fmt/format.h>

#include <signal.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <filesystem>
#include <fstream>

namespace stillroom::store {

namespace {

std::string notePath(const std::string& workbookPath) {
    return workbookPath + "-holder";
}

std::string thisHost() {
    std::array<char, 256> name{};
    if (gethostname(name.data(), name.size() - 1) != 0) return "?";
    return name.data();
}

bool isGone(const Holder& holder) {
    return holder.host == thisHost() && kill(static_cast<pid_t>(holder.pid), 0) != 0 && errno == ESRCH;
}

} // namespace

HolderNote::HolderNote(std::string workbookPath, const base::Instant& now) : m_path(notePath(workbookPath)) {
    std::ofstream out(m_path, std::ios::trunc);
    out << getpid() << '\n' << thisHost() << '\n' << base::isoText(now) << '\n';
}

HolderNote::~HolderNote() {
    std::error_code ignored;
    std::filesystem::remove(m_path, ignored);
}

std::optional<Holder> readHolder(const std::string& workbookPath) {
    std::ifstream in(notePath(workbookPath));
    Holder holder;
    if (!(in >> holder.pid >> holder.host >> holder.since) || holder.pid <= 0) return std::nullopt;
    return holder;
}

std::string lockedBy(const std::string& workbookPath) {
    const auto holder = readHolder(workbookPath);
    if (!holder || isGone(*holder)) return "the workbook is open in another program";
    if (holder->pid == getpid() && holder->host == thisHost())
        return fmt::format("the workbook is already open in this program (since {})", holder->since);
    return fmt::format("the workbook is open in process {} on {} (since {})", holder->pid, holder->host,
                       holder->since);
}

} // namespace stillroom::store
