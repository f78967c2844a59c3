// What an edit of one fact costs over ten thousand drinks that use it, and the parts it is made of. Printed,
// never asserted.
#include "core/larder/larder.h"
#include "core/preparation/impact.h"
#include "core/spec/caution.h"
#include "core/spec/evaluate.h"

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <string>
#include <vector>

using namespace stillroom;
using quantity::Amount;
using quantity::Measure;

namespace {

using Clock = std::chrono::steady_clock;

template <class Call>
double milliseconds(Call call) {
    double best = 1e9;
    for (int round = 0; round < 3; ++round) {
        const auto start = Clock::now();
        call();
        best = std::min(best, 1e3 * std::chrono::duration<double>(Clock::now() - start).count());
    }
    return best;
}

struct Book {
    larder::Larder larder;
    spec::HouseRules rules;
    std::vector<spec::Spec> specs;
    std::vector<std::string> texts;
};

larder::Ingredient priced(larder::Ingredient ingredient, std::int64_t cents) {
    larder::Pack pack;
    pack.id = base::PackId::derivedFrom(ingredient.name);
    pack.price = {cents, {}};
    pack.forMl = 700;
    ingredient.packs = {pack};
    return ingredient;
}

Book makeBook(int count) {
    Book book;
    std::vector<base::IngredientId> pool;
    for (const auto* kind : book.larder.all())
        if (kind->facts.abvPercent && !kind->facts.dry && pool.size() < 200) pool.push_back(kind->id);
    for (std::size_t i = 0; i < pool.size(); ++i)
        book.larder.put(priced(*book.larder.find(pool[i]), 900 + 13 * static_cast<std::int64_t>(i)));
    for (int i = 0; i < count; ++i) {
        spec::Spec drink;
        for (int l = 0; l < 6; ++l) {
            spec::Line line;
            const auto id =
                l == 0 ? pool[0] : pool[static_cast<std::size_t>(i * 7 + l * 31 + i / 97) % pool.size()];
            line.ingredient = id;
            line.name = book.larder.find(id)->name;
            line.written = std::to_string(10 + l * 5) + " ml " + line.name;
            line.poured = {Amount::exact(10 + l * 5 + i % 7), l == 5 ? Measure::Dash : Measure::Ml, 1};
            drink.lines.push_back(line);
        }
        drink.method.technique = i % 3 ? spec::Technique::Shake : spec::Technique::Stir;
        drink.method.text = "Shake with ice and strain into a chilled glass.";
        drink.glass = "coupe";
        book.texts.push_back(drink.canonicalJson());
        book.specs.push_back(std::move(drink));
    }
    return book;
}

} // namespace

int main() {
    constexpr int kCount = 10'000;
    const Book book = makeBook(kCount);
    double checksum = 0;
    const auto print = [](const char* what, double ms) { std::printf("%s: %.0f ms\n", what, ms); };
    print("10,000 specs from their canonical JSON", milliseconds([&] {
              for (const auto& text : book.texts)
                  checksum += static_cast<double>(spec::Spec::fromCanonicalJson(text)->lines.size());
          }));
    print("10,000 specs bound", milliseconds([&] {
              for (const auto& drink : book.specs)
                  checksum += spec::Bindings(drink, book.larder, book.rules).rules().standardDrinkGrams;
          }));
    print("10,000 specs bound and evaluated", milliseconds([&] {
              for (const auto& drink : book.specs) {
                  const spec::Bindings bindings(drink, book.larder, book.rules);
                  checksum +=
                      spec::evaluate(drink, bindings)[spec::Stage::Served][spec::Quantity::Cost].value;
              }
          }));
    print("the same over one house", milliseconds([&] {
              const spec::BindingHouse house(book.larder, book.rules);
              for (const auto& drink : book.specs) {
                  const spec::Bindings bindings(drink, house);
                  checksum +=
                      spec::evaluate(drink, bindings)[spec::Stage::Served][spec::Quantity::Cost].value;
              }
          }));
    print("bound over one house", milliseconds([&] {
              const spec::BindingHouse house(book.larder, book.rules);
              for (const auto& drink : book.specs)
                  checksum += spec::Bindings(drink, house).rules().standardDrinkGrams;
          }));
    print(
        "1,000 specs' cautions", milliseconds([&] {
            for (std::size_t i = 0; i < 1000; ++i) {
                const spec::Bindings bindings(book.specs[i], book.larder, book.rules);
                checksum += static_cast<double>(
                    spec::cautions(book.specs[i], bindings, spec::evaluate(book.specs[i], bindings)).size());
            }
        }));
    preparation::Side before{book.larder, book.rules};
    preparation::Side after = before;
    auto edited = *book.larder.find(*book.specs[0].lines[0].ingredient);
    edited.facts.abvPercent->typical += 1;
    edited.facts.abvPercent->high += 1;
    after.larder.put(edited);
    print("10,000 specs from their canonical JSON, on all cores",
          milliseconds([&] { checksum += static_cast<double>(preparation::readSpecs(book.texts).size()); }));
    std::vector<preparation::ImpactSubject> subjects;
    for (const auto& drink : book.specs)
        subjects.push_back({&drink, nullptr});
    print("impact of one edited fact on 10,000 specs in memory", milliseconds([&] {
              checksum += static_cast<double>(preparation::impact(before, after, subjects).changed.size());
          }));
    print("the same from their JSON (aim 200)", milliseconds([&] {
              const auto read = preparation::readSpecs(book.texts);
              std::vector<preparation::ImpactSubject> fresh;
              for (const auto& drink : read)
                  fresh.push_back({&*drink, nullptr});
              checksum += static_cast<double>(preparation::impact(before, after, fresh).changed.size());
          }));
    std::printf("(best of three; check value %.6f)\n", checksum);
    return 0;
}
