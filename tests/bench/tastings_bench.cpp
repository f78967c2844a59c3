// A workbook of 100,000 tastings, every hundredth of them weighed: what the bench's rules and a drink's
// tastings take. stillroom_tastings_bench [WORKBOOK], as store_bench takes it; measures, asserts nothing.
#include "core/store/bench_rules.h"
#include "core/store/measured_tastings.h"
#include "core/store/workbook.h"
#include "tests/bench/big_book.h"

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <filesystem>
#include <iostream>
#include <vector>

using namespace stillroom;

namespace {

constexpr bench::BigBookSize kSize{600, 10000, 100000, 100};

using Time = std::chrono::steady_clock;

template <class Work>
void report(const char* what, int times, Work&& work) {
    std::vector<double> ms;
    for (int i = 0; i < times; ++i) {
        const auto start = Time::now();
        work(i);
        ms.push_back(std::chrono::duration<double, std::milli>(Time::now() - start).count());
    }
    const double first = ms.front();
    std::sort(ms.begin(), ms.end());
    std::printf("%-44s first %9.3f ms   p50 %9.3f ms   worst %9.3f ms\n", what, first, ms[ms.size() / 2],
                ms.back());
}

void measure(const std::string& path) {
    const base::SystemClock clock;
    std::unique_ptr<store::Workbook> book;
    report("open", 1, [&](int) { book = store::Workbook::open(path, store::OpenMode::ReadWrite, clock); });
    larder::Larder larder;
    report("larder", 1, [&](int) { larder = book->larder(); });
    report("specs somebody measured", 5, [&](int) { book->measuredSpecs(); });
    std::printf("  %zu of them\n", book->measuredSpecs().size());
    report("the bench's rules", 5, [&](int) { store::benchRules(*book, larder); });
    report("temperatures of the bench", 5,
           [&](int) { store::temperatureBench(*book, spec::Technique::Shake); });
    const auto summaries = book->summaries();
    report("tastings of a drink", 50,
           [&](int i) { book->tastingsOf(summaries[static_cast<std::size_t>(i)].id); });
    store::CheckReport checked;
    book.reset();
    report("check", 1, [&](int) { checked = store::check(path); });
    std::printf("  %d tastings re-read, %zu problems\n", checked.tastings, checked.problems.size());
}

} // namespace

int main(int argc, char* argv[]) {
    const bool keepFile = argc > 1;
    const std::string path =
        keepFile ? argv[1]
                 : (std::filesystem::temp_directory_path() / "stillroom-tastings.stillroom").string();
    try {
        if (!keepFile) std::filesystem::remove(path);
        if (!std::filesystem::exists(path)) bench::makeBigBook(path, kSize);
        measure(path);
    } catch (const std::exception& error) {
        std::cerr << error.what() << '\n';
        return 1;
    }
    if (!keepFile) std::filesystem::remove(path);
    return 0;
}
