#include "tests/bench/search_measure.h"

#include "tests/bench/big_book.h"

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <fstream>
#include <string>
#include <unistd.h>

namespace stillroom::bench {

namespace {

using Time = std::chrono::steady_clock;

double msSince(Time::time_point start) {
    return std::chrono::duration<double, std::milli>(Time::now() - start).count();
}

void print(const char* what, std::vector<double> ms) {
    std::sort(ms.begin(), ms.end());
    std::printf("%-34s p50 %8.3f ms   p99 %8.3f ms   (%zu keys, longest %.3f ms)\n", what, ms[ms.size() / 2],
                ms[ms.size() * 99 / 100], ms.size(), ms.back());
}

// One key after the other, as the field sends them.
std::vector<double> typed(store::Workbook& book, const std::vector<std::string>& requests,
                          const store::SearchFilters& filters) {
    std::vector<double> ms;
    for (const std::string& request : requests)
        for (std::size_t length = 1; length <= request.size(); ++length) {
            const auto start = Time::now();
            book.search({request.substr(0, length), filters});
            ms.push_back(msSince(start));
        }
    return ms;
}

// Every word that occurs in all drinks, words of one drink in many, names, and what is in none.
std::vector<std::string> plainRequests() {
    std::vector<std::string> requests{
        "gin", "lemon juice", "light 250", "shake hard", "clear as the first", "syrup comes late",
        "the", "menu 12"};
    for (const std::size_t index : {0U, 3U, 40U, 300U, 1500U, 6000U, 12000U, 19000U})
        requests.push_back(benchWord(index) + ' ' + benchWord(index / 2));
    return requests;
}

std::vector<std::string> misspelt() {
    std::vector<std::string> requests{"lemmon", "gni and tonic", "shkae hard", "sirup comes", "xylophone"};
    for (const std::size_t index : {900U, 1500U, 6000U, 12000U, 15000U}) {
        std::string word = benchWord(index);
        std::swap(word[1], word[2]);
        requests.push_back(word);
    }
    return requests;
}

} // namespace

double residentMb() {
    std::ifstream in("/proc/self/statm");
    long total = 0, resident = 0;
    if (!(in >> total >> resident)) return 0;
    return static_cast<double>(resident) * static_cast<double>(sysconf(_SC_PAGESIZE)) / 1e6;
}

void measureSearch(store::Workbook& book) {
    store::SearchFilters filters;
    filters.strengthAtLeast = 15;
    filters.states = {store::SearchState::Kept};
    filters.withoutAllergens = {"milk"};
    // Nobody has had time to read ahead: these may not wait either.
    const auto first = Time::now();
    book.search({"l", {}});
    std::printf("%-34s %12.3f ms\n", "search, the first key", msSince(first));
    const auto filtered = Time::now();
    const int unread = book.search({"", filters}).unread;
    std::printf("%-34s %12.3f ms   (%d drinks unread)\n", "search, the first with filters", msSince(filtered),
                unread);
    const auto start = Time::now();
    std::vector<double> bits;
    for (int left = 1; left > 0;) {
        const auto bit = Time::now();
        left = book.catchUpSearch(5);
        bits.push_back(msSince(bit));
    }
    std::printf("%-34s %12.3f ms\n", "reading all that keys ask for", msSince(start));
    print("  a bit of it, five drinks", bits);
    std::vector<double> all = typed(book, plainRequests(), {});
    print("search as typed", all);
    const std::vector<double> slips = typed(book, misspelt(), {});
    print("search as typed, misspelt", slips);
    all.insert(all.end(), slips.begin(), slips.end());

    const int found = book.search({"", filters}).total;
    const std::vector<double> narrowed = typed(book, plainRequests(), filters);
    print("search as typed, filtered", narrowed);
    all.insert(all.end(), narrowed.begin(), narrowed.end());
    print("search, every key", all);
    std::printf("  %d drinks pass the filters; %.0f MB resident after it\n", found, residentMb());
}

} // namespace stillroom::bench
