#include "tests/faults/fault_device.h"

#include <sqlite3.h>

#include <signal.h>

#include <algorithm>
#include <cstring>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <new>
#include <stdexcept>

namespace stillroom::test {

namespace {

FaultDevice* g_device = nullptr;
sqlite3_vfs* g_real = nullptr;

struct File {
    sqlite3_file base;
    std::string* path; // nullptr for a nameless temporary file
    sqlite3_file* real() {
        return reinterpret_cast<sqlite3_file*>(reinterpret_cast<char*>(this) + sizeof(File));
    }
};

File* fileOf(sqlite3_file* file) {
    return reinterpret_cast<File*>(file);
}

sqlite3_file* realOf(sqlite3_file* file) {
    return fileOf(file)->real();
}

int closeFile(sqlite3_file* file) {
    delete fileOf(file)->path;
    fileOf(file)->path = nullptr;
    return realOf(file)->pMethods->xClose(realOf(file));
}

int readFile(sqlite3_file* file, void* to, int size, sqlite3_int64 offset) {
    return realOf(file)->pMethods->xRead(realOf(file), to, size, offset);
}

int writeFile(sqlite3_file* file, const void* from, int size, sqlite3_int64 offset) {
    const auto verdict = g_device->next(true);
    const int count = verdict.code == SQLITE_OK ? size : (verdict.shortWrite ? size / 2 : 0);
    if (count > 0) {
        const int code = realOf(file)->pMethods->xWrite(realOf(file), from, count, offset);
        if (code != SQLITE_OK) return code;
        if (fileOf(file)->path != nullptr)
            g_device->wrote(*fileOf(file)->path, offset,
                            std::string(static_cast<const char*>(from), static_cast<std::size_t>(count)));
    }
    return verdict.code;
}

int truncateFile(sqlite3_file* file, sqlite3_int64 size) {
    if (const auto verdict = g_device->next(false); verdict.code != SQLITE_OK) return verdict.code;
    if (fileOf(file)->path != nullptr) g_device->truncated(*fileOf(file)->path, size);
    return realOf(file)->pMethods->xTruncate(realOf(file), size);
}

int syncFile(sqlite3_file* file, int) {
    if (const auto verdict = g_device->next(false); verdict.code != SQLITE_OK) return SQLITE_IOERR_FSYNC;
    if (fileOf(file)->path != nullptr) g_device->synced(*fileOf(file)->path);
    return SQLITE_OK;
}

int fileSize(sqlite3_file* file, sqlite3_int64* size) {
    return realOf(file)->pMethods->xFileSize(realOf(file), size);
}

int lockFile(sqlite3_file* file, int level) {
    return realOf(file)->pMethods->xLock(realOf(file), level);
}

int unlockFile(sqlite3_file* file, int level) {
    return realOf(file)->pMethods->xUnlock(realOf(file), level);
}

int checkReservedLock(sqlite3_file* file, int* held) {
    return realOf(file)->pMethods->xCheckReservedLock(realOf(file), held);
}

int fileControl(sqlite3_file* file, int operation, void* argument) {
    return realOf(file)->pMethods->xFileControl(realOf(file), operation, argument);
}

int sectorSize(sqlite3_file* file) {
    return realOf(file)->pMethods->xSectorSize(realOf(file));
}

int deviceCharacteristics(sqlite3_file* file) {
    return realOf(file)->pMethods->xDeviceCharacteristics(realOf(file));
}

// Version 1: no shared memory, no memory mapping.
const sqlite3_io_methods kMethods{1,
                                  closeFile,
                                  readFile,
                                  writeFile,
                                  truncateFile,
                                  syncFile,
                                  fileSize,
                                  lockFile,
                                  unlockFile,
                                  checkReservedLock,
                                  fileControl,
                                  sectorSize,
                                  deviceCharacteristics,
                                  nullptr,
                                  nullptr,
                                  nullptr,
                                  nullptr,
                                  nullptr,
                                  nullptr};

int openFile(sqlite3_vfs*, const char* name, sqlite3_file* file, int flags, int* outFlags) {
    file->pMethods = nullptr;
    fileOf(file)->path = nullptr;
    if (g_device->next(false).code != SQLITE_OK) return SQLITE_CANTOPEN;
    if (name != nullptr) g_device->opened(name);
    const int code = g_real->xOpen(g_real, name, realOf(file), flags, outFlags);
    if (code != SQLITE_OK) return code;
    if (name != nullptr) fileOf(file)->path = new std::string(name);
    file->pMethods = &kMethods;
    return SQLITE_OK;
}

int deleteFile(sqlite3_vfs*, const char* name, int syncFolder) {
    if (g_device->next(false).code != SQLITE_OK) return SQLITE_IOERR_DELETE;
    g_device->deleted(name, syncFolder != 0);
    return g_real->xDelete(g_real, name, 0);
}

int accessFile(sqlite3_vfs*, const char* name, int flags, int* result) {
    return g_real->xAccess(g_real, name, flags, result);
}

int fullPathname(sqlite3_vfs*, const char* name, int size, char* out) {
    return g_real->xFullPathname(g_real, name, size, out);
}

int randomness(sqlite3_vfs*, int size, char* out) {
    return g_real->xRandomness(g_real, size, out);
}

int sleepFor(sqlite3_vfs*, int) {
    return 0; // the only wait is for a lock, and nobody else is here
}

int currentTime(sqlite3_vfs*, double* time) {
    return g_real->xCurrentTime(g_real, time);
}

int lastError(sqlite3_vfs*, int, char*) {
    return 0;
}

sqlite3_vfs& shim() {
    static sqlite3_vfs vfs = [] {
        g_real = sqlite3_vfs_find(nullptr);
        sqlite3_vfs made{};
        made.iVersion = 1;
        made.szOsFile = static_cast<int>(sizeof(File)) + g_real->szOsFile;
        made.mxPathname = g_real->mxPathname;
        made.zName = "stillroom-faults";
        made.xOpen = openFile;
        made.xDelete = deleteFile;
        made.xAccess = accessFile;
        made.xFullPathname = fullPathname;
        made.xRandomness = randomness;
        made.xSleep = sleepFor;
        made.xCurrentTime = currentTime;
        made.xGetLastError = lastError;
        return made;
    }();
    return vfs;
}

} // namespace

FaultDevice::FaultDevice() {
    if (g_device != nullptr) throw std::logic_error("one device at a time");
    g_device = this;
    sqlite3_vfs_register(&shim(), 1);
}

FaultDevice::~FaultDevice() {
    sqlite3_vfs_unregister(&shim());
    sqlite3_vfs_register(g_real, 1);
    g_device = nullptr;
}

void FaultDevice::failAt(int at, FaultKind kind, bool forEver) {
    m_failAt = at;
    m_kind = kind;
    m_forEver = forEver;
}

FaultDevice::Verdict FaultDevice::next(bool isWrite) {
    if (m_dead) return {SQLITE_IOERR, false};
    ++m_operations;
    if (m_cutAt > 0 && m_operations >= m_cutAt) {
        // The last write may still have reached the disk in part.
        if (!isWrite) m_dead = true;
        return {SQLITE_IOERR_WRITE, isWrite};
    }
    const bool fails = m_failAt > 0 && (m_operations == m_failAt || (m_forEver && m_operations > m_failAt));
    if (!fails) return {};
    switch (m_kind) {
    case FaultKind::Kill:
        raise(SIGKILL);
        break;
    case FaultKind::DiskFull:
        return {SQLITE_FULL, false};
    case FaultKind::ShortWrite:
        return {SQLITE_IOERR_WRITE, isWrite};
    case FaultKind::IoError:
        break;
    }
    return {SQLITE_IOERR_WRITE, false};
}

void FaultDevice::opened(const std::string& path) {
    const auto found = m_images.find(path);
    if (found != m_images.end() && !found->second.gone) return;
    std::ifstream in(path, std::ios::binary);
    m_images[path] = {std::string(std::istreambuf_iterator<char>(in), {}), {}, false};
}

void FaultDevice::wrote(const std::string& path, std::int64_t offset, std::string bytes) {
    if (m_dead) return;
    m_images[path].unsynced.push_back({false, offset, std::move(bytes)});
    if (m_cutAt > 0 && m_operations >= m_cutAt) m_dead = true;
}

void FaultDevice::truncated(const std::string& path, std::int64_t size) {
    if (!m_dead) m_images[path].unsynced.push_back({true, size, {}});
}

void FaultDevice::synced(const std::string& path) {
    if (m_dead || m_lies) return;
    Image& image = m_images[path];
    for (const Change& change : image.unsynced)
        apply(image.durable, change);
    image.unsynced.clear();
}

void FaultDevice::deleted(const std::string& path, bool folderSynced) {
    if (m_dead) return;
    m_images[path].gone = true;
    if (folderSynced) m_images[path] = {{}, {}, true};
}

void FaultDevice::apply(std::string& content, const Change& change) {
    const auto offset = static_cast<std::size_t>(change.offset);
    if (change.truncation) {
        content.resize(offset);
        return;
    }
    content.resize(std::max(content.size(), offset + change.bytes.size()));
    std::copy(change.bytes.begin(), change.bytes.end(),
              content.begin() + static_cast<std::ptrdiff_t>(offset));
}

void FaultDevice::leaveWhatThePowerCutLeft(std::mt19937& random) {
    constexpr std::size_t kSector = 512;
    const auto coin = [&random] { return (random() & 1U) != 0; };
    for (auto& [path, image] : m_images) {
        if (image.gone && (image.durable.empty() || coin())) {
            std::filesystem::remove(path);
            continue;
        }
        std::string content = image.durable;
        for (const Change& change : image.unsynced) {
            if (change.truncation) {
                if (coin()) apply(content, change);
                continue;
            }
            const bool torn = random() % 4 == 0; // most writes arrive whole or not at all
            const bool whole = coin();
            for (std::size_t at = 0; at < change.bytes.size(); at += kSector)
                if (torn ? coin() : whole)
                    apply(content, {false, change.offset + static_cast<std::int64_t>(at),
                                    change.bytes.substr(at, kSector)});
        }
        std::ofstream(path, std::ios::binary | std::ios::trunc) << content;
    }
}

} // namespace stillroom::test
