// Evaluations per second of a six-line spec at three stages, on one core, and what the slower readings take.
// Printed, never asserted.
#include "core/larder/larder.h"
#include "core/spec/evaluate.h"
#include "core/spec/held_readings.h"
#include "core/spec/more_readings.h"
#include "core/spec/spread.h"
#include "core/spec/working.h"

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

double evaluationsPerSecond(const Made& like, double& checksum) {
    Made made = like;
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

// Microseconds of one call, best of ten rounds.
template <class Call>
double microseconds(int calls, Call call) {
    double best = 1e9;
    for (int round = 0; round < 10; ++round) {
        const auto start = Clock::now();
        for (int i = 0; i < calls; ++i)
            call();
        const double seconds = std::chrono::duration<double>(Clock::now() - start).count();
        best = std::min(best, 1e6 * seconds / calls);
    }
    return best;
}

void printOnDemand(double& checksum) {
    using spec::Quantity;
    using spec::Stage;
    Made made = sixLines();
    made.drink.glass = "low tumbler, over one 45 mm cube";
    const spec::Bindings bindings(made.drink, made.larder, {});
    const auto print = [](const char* what, double us) { std::printf("%s: %.1f us\n", what, us); };
    print("evaluation with temperatures", microseconds(500, [&] {
              const auto r = spec::evaluateWithTemperatures(made.drink, bindings);
              checksum += r[Stage::Served][Quantity::Temperature].value;
          }));
    print("held curve, 0 to 30 min (aim 1000)", microseconds(50, [&] {
              checksum += spec::heldReadings(made.drink, bindings)->points.back().celsius;
          }));
    print("all further readings, three stages", microseconds(50, [&] {
              checksum +=
                  spec::moreReadings(made.drink, bindings)[Stage::Served][spec::More::FreezingOnset].value;
          }));
    const auto readings = spec::evaluate(made.drink, bindings);
    print("the same with freezer and countries", microseconds(50, [&] {
              checksum += spec::furtherReadings(made.drink, bindings, readings).countries.front().count.value;
          }));
    print("one working of a further reading", microseconds(50, [&] {
              checksum += static_cast<double>(
                  spec::working(made.drink, bindings, spec::More::FreezingOnset, Stage::Served).steps.size());
          }));
    print("one spread of a further reading", microseconds(50, [&] {
              checksum += spec::spread(made.drink, bindings, spec::More::FreezingOnset, Stage::Served).high;
          }));
    print("one working", microseconds(50, [&] {
              checksum += static_cast<double>(
                  spec::working(made.drink, bindings, Quantity::Strength, Stage::Served).steps.size());
          }));
    print("one spread", microseconds(50, [&] {
              checksum += spec::spread(made.drink, bindings, Quantity::Strength, Stage::Served).high;
          }));
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
    Made made = sixLines();
    const double ours = evaluationsPerSecond(made, checksum);
    std::printf("evaluations of a six-line spec at three stages: %.0f per second on one core (aim 1000000)\n",
                ours);
    made.drink.method.dilution = spec::DilutionEntry{0.5, spec::DilutionOrigin::Measured, ""};
    std::printf("the same with a measured dilution: %.0f per second (aim 1000000)\n",
                evaluationsPerSecond(made, checksum));
    made.drink.method.dilution.reset();
    made.drink.method.dilutionModel = spec::DilutionModel::Balance;
    std::printf("the same with the heat balance: %.0f per second (aim 300000)\n",
                evaluationsPerSecond(made, checksum));
    printOnDemand(checksum);
    const double python = pythonPerSecond(STILLROOM_SOURCE_DIR "/tests/bench/evaluation_loop.py");
    if (python > 0)
        std::printf("plain Python loop of the same sums: %.0f per second; ratio %.0f\n", python,
                    ours / python);
    else
        std::printf("plain Python loop of the same sums: not run, there is no python3 here\n");
    std::printf("(best of ten rounds; check value %.6f)\n", checksum);
    return 0;
}
