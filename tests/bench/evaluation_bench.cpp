// Evaluations per second of a six-line spec at three stages, on one core. Printed, never asserted.
#include "core/larder/larder.h"
#include "core/spec/evaluate.h"

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <string>

using namespace stillroom;
using quantity::Amount;
using quantity::Measure;

namespace {

using Clock = std::chrono::steady_clock;

larder::Fact fact(double value) {
    return {value, value, value, larder::SourceKind::Label, "label"};
}

struct Made {
    larder::Larder larder = larder::Larder::withoutHandbook();
    spec::Spec drink;

    void add(const char* name, double abv, double sugar, double acid, double ml, std::int64_t cents) {
        larder::Ingredient ingredient;
        ingredient.id = base::IngredientId::derivedFrom(name);
        ingredient.name = name;
        ingredient.facts.abvPercent = fact(abv);
        ingredient.facts.sugarGPerL = fact(sugar);
        ingredient.facts.acidGPerL = fact(acid);
        ingredient.packs.push_back({base::PackId::derivedFrom(name), {cents, {}}, 700, {}, {}, ""});
        larder.put(ingredient);
        spec::Line line;
        line.name = name;
        line.ingredient = ingredient.id;
        line.poured = {Amount::exact(*quantity::Rational::make(static_cast<std::int64_t>(ml * 10), 10)),
                       Measure::Ml, 1};
        drink.lines.push_back(line);
    }
};

// The same six lines stand in evaluation_loop.py.
Made sixLines() {
    Made made;
    made.add("aged rum", 43, 0, 0, 40, 2600);
    made.add("overproof rum", 63, 0, 0, 10, 3200);
    made.add("orange liqueur", 40, 250, 0, 15, 2400);
    made.add("lime juice", 0, 17, 60, 22.5, 500);
    made.add("nut syrup", 0, 682, 0, 12.5, 900);
    made.add("bitters", 44.7, 40, 0, 1.8, 9000);
    made.drink.method.technique = spec::Technique::Shake;
    return made;
}

double evaluationsPerSecond(double& checksum) {
    Made made = sixLines();
    const spec::Bindings bindings(made.drink, made.larder, {});
    constexpr int kBatch = 20000;
    double best = 0;
    for (int round = 0; round < 10; ++round) {
        const auto start = Clock::now();
        for (int i = 0; i < kBatch; ++i) {
            // Another amount every time, as when one is typed.
            made.drink.lines[3].poured.amount = Amount::exact(20 + i % 8);
            const spec::Readings readings = spec::evaluate(made.drink, bindings);
            checksum += readings[spec::Stage::Served][spec::Quantity::Strength].value +
                        readings[spec::Stage::Served][spec::Quantity::Cost].value;
        }
        const double seconds = std::chrono::duration<double>(Clock::now() - start).count();
        best = std::max(best, kBatch / seconds);
    }
    return best;
}

// The script prints one number. A line of its own says why when there is none.
double pythonPerSecond(const std::string& script) {
    if (std::system("python3 -c pass >/dev/null 2>&1") != 0) return 0;
    std::FILE* pipe = popen(("python3 '" + script + "'").c_str(), "r");
    if (pipe == nullptr) return 0;
    char text[64] = {};
    const bool read = std::fgets(text, sizeof text, pipe) != nullptr;
    pclose(pipe);
    return read ? std::strtod(text, nullptr) : 0;
}

} // namespace

int main() {
    double checksum = 0;
    const double ours = evaluationsPerSecond(checksum);
    std::printf("evaluations of a six-line spec at three stages: %.0f per second on one core (aim 1000000)\n",
                ours);
    const double python = pythonPerSecond(STILLROOM_SOURCE_DIR "/tests/bench/evaluation_loop.py");
    if (python > 0)
        std::printf("plain Python loop of the same sums: %.0f per second; ratio %.0f\n", python,
                    ours / python);
    else
        std::printf("plain Python loop of the same sums: not run, there is no python3 here\n");
    std::printf("(best of ten rounds; check value %.6f)\n", checksum);
    return 0;
}
