#include "tests/reference/published.h"

#include "tests/support/catch.h"

#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <map>
#include <set>
#include <stdexcept>
#include <vector>

namespace stillroom::reference {

namespace {

constexpr const char* kFiles[] = {"ethanol-water",  "sucrose-water", "ternary",  "thermal", "acids",
                                  "water-activity", "sweetness",     "servings", "sensory", "trade"};

struct Line {
    std::string file;
    std::string id;
    std::string quantity;
    std::string source;
    bool fromMemory;
    std::size_t points;
    double largest;
    double bound;
};

// Every dataset that no comparison of this run named, with the reason; one without a reason says so.
void printNotCompared(const std::vector<Line>& lines) {
    std::set<std::string> compared;
    for (const Line& line : lines)
        compared.insert(line.file + "/" + line.id);
    std::size_t without = 0;
    std::printf("\n%-52s %s\n", "published data not compared", "why");
    for (const char* file : kFiles) {
        for (const auto& set : document(file).at("datasets")) {
            const std::string key = std::string(file) + "/" + set.at("id").get<std::string>();
            if (compared.count(key) > 0) continue;
            const auto reason = notCompared().find(key);
            const bool memory = set.value("from_memory", false);
            without += reason == notCompared().end() ? 1 : 0;
            std::printf("%-52s %s%s\n", key.c_str(), memory ? "FROM MEMORY OR WITHOUT SOURCE. " : "",
                        reason == notCompared().end() ? "NO COMPARISON IN THIS RUN" : reason->second);
        }
    }
    std::printf("%zu datasets compared, %zu not and without a reason\n", compared.size(), without);
}

void printReport(const std::vector<Line>& lines) {
    std::printf("\n%-44s %6s %12s %12s  %s\n", "quantity", "points", "largest dev.", "bound", "source");
    for (const Line& line : lines) {
        std::printf("%-44s %6zu %12.3g %12.3g  %s%s [%s: %s]%s\n", line.quantity.c_str(), line.points,
                    line.largest, line.bound, line.fromMemory ? "FROM MEMORY. " : "", line.source.c_str(),
                    line.file.c_str(), line.id.c_str(), line.largest > line.bound ? " EXCEEDED" : "");
    }
    std::printf("%zu comparisons\n", lines.size());
    printNotCompared(lines);
}

// Printed when the program ends, so that it holds whatever was run.
struct Report {
    std::vector<Line> lines;
    Report() = default;
    Report(const Report&) = delete;
    Report& operator=(const Report&) = delete;
    ~Report() {
        if (std::getenv("STILLROOM_REFERENCE_REPORT") != nullptr) printReport(lines);
    }
};

Report& report() {
    // What the report reads at the end must be made before it, to outlive it.
    notCompared();
    for (const char* file : kFiles)
        document(file);
    static Report made;
    return made;
}

} // namespace

const nlohmann::json& document(std::string_view file) {
    static std::map<std::string, nlohmann::json, std::less<>> read;
    if (const auto found = read.find(file); found != read.end()) return found->second;
    const std::string path = STILLROOM_SOURCE_DIR "/tests/reference/data/" + std::string(file) + ".json";
    std::ifstream stream(path);
    if (!stream) throw std::runtime_error("cannot read " + path);
    return read.emplace(file, nlohmann::json::parse(stream)).first->second;
}

const nlohmann::json& dataset(std::string_view file, std::string_view id) {
    for (const auto& set : document(file).at("datasets"))
        if (set.at("id") == id) return set;
    throw std::runtime_error("no dataset " + std::string(id) + " in " + std::string(file));
}

Comparison::Comparison(std::string_view file, std::string_view id, std::string quantity, double bound)
    : m_file(file),
      m_id(id),
      m_quantity(std::move(quantity)),
      m_bound(bound) {
    report(); // made before, so ended after
}

Comparison::~Comparison() {
    std::string source = "worked example of this project";
    bool fromMemory = false;
    if (document(m_file).contains("datasets")) {
        const auto& set = dataset(m_file, m_id);
        source = set.value("source", "");
        fromMemory = set.value("from_memory", false);
    }
    report().lines.push_back({m_file, m_id, m_quantity, source, fromMemory, m_points, m_largest, m_bound});
}

void Comparison::add(double computed, double published, std::string where) {
    const double deviation = std::abs(computed - published);
    ++m_points;
    if (!(deviation <= m_largest)) { // a NaN counts as the worst
        m_largest = std::isnan(deviation) ? HUGE_VAL : deviation;
        m_worst =
            where + ": computed " + std::to_string(computed) + ", published " + std::to_string(published);
    }
}

void Comparison::check() const {
    INFO(m_file << " " << m_id << ", " << m_quantity << ", worst at " << m_worst);
    CHECK(m_points > 0);
    CHECK(m_largest <= m_bound);
}

} // namespace stillroom::reference
