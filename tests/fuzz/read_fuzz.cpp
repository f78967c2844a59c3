#include "tests/fuzz/read_invariants.h"

#include <cstdint>
#include <cstdio>
#include <cstdlib>

// libFuzzer's entry: -DSTILLROOM_FUZZ=ON with clang. Seeds: tests/corpus/data/recipes and its hostile folder.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const std::string bytes(reinterpret_cast<const char*>(data), size);
    const std::string broken = stillroom::fuzz::brokenReading(bytes);
    if (!broken.empty()) {
        std::fprintf(stderr, "%s\n", broken.c_str());
        std::abort();
    }
    return 0;
}
