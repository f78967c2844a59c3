#include "tests/faults/scenario.h"

namespace stillroom::test {

namespace {

constexpr int kIngredients = 12;
constexpr int kDrinks = 20;

} // namespace

ManyUses::ManyUses() : m_path(m_folder.file("many.stillroom")) {
    const auto book = store::Workbook::create(m_path, lowLamp(), kFaultClock);
    for (int i = 0; i < kIngredients; ++i) {
        auto ingredient = bottleOf("harbour gin " + std::to_string(i), 40);
        ingredient.packs = {{base::PackId::random(), {2000, {}}, 700.0, {}, {}, "2026-10-01"}};
        m_before.push_back(ingredient);
    }
    book->saveIngredients(m_before);
    for (int i = 0; i < kDrinks; ++i) {
        const auto& gin = m_before[static_cast<std::size_t>(i % kIngredients)];
        const auto draft = book->addDrink(drinkNamed("Light " + std::to_string(i)), sour(22, gin.id));
        book->keep(draft.id, "a first try");
    }
}

std::vector<larder::Ingredient> ManyUses::edited() const {
    auto all = m_before;
    for (larder::Ingredient& ingredient : all) {
        ingredient.facts.abvPercent = fact(47);
        ingredient.packs[0] = {base::PackId::random(), {2600, {}}, 700.0, {}, {}, "2026-11-02"};
        ingredient.usableShare = *quantity::Rational::make(19, 20);
        ingredient.maker = std::string(2000, 'm'); // pages enough for the edit to touch many
    }
    return all;
}

std::vector<std::string> ManyUses::problems(const std::string& path, bool acknowledged) const {
    std::vector<std::string> found;
    try {
        for (const auto& problem : store::check(path).problems)
            found.push_back(problem.where + ": " + problem.what);
        const auto book = store::Workbook::open(path, store::OpenMode::ReadWrite, kFaultClock);
        const auto larder = book->larder();
        int changed = 0;
        for (const auto& before : m_before) {
            const larder::Ingredient* now = larder.find(before.id);
            if (now == nullptr) {
                found.push_back("an ingredient is missing");
                continue;
            }
            const bool isNew = now->facts.abvPercent == fact(47);
            changed += isNew ? 1 : 0;
            const bool allOfIt = now->packs.size() == 1 && !now->maker.empty() == isNew &&
                                 now->packs[0].price.minor == (isNew ? 2600 : 2000) &&
                                 (now->usableShare != quantity::Rational(1)) == isNew;
            if (!allOfIt) found.push_back("one ingredient was changed in part");
        }
        if (changed != 0 && changed != kIngredients) found.push_back("some were changed and some were not");
        if (acknowledged && changed == 0) found.push_back("an acknowledged edit is lost");
        int uses = 0;
        for (const auto& before : m_before)
            uses += static_cast<int>(book->usesOf(before.id).size());
        if (uses != 2 * kDrinks) found.push_back("uses are missing");
    } catch (const store::StoreError& error) {
        found.push_back(std::string("the workbook does not open: ") + error.what());
    }
    return found;
}

} // namespace stillroom::test
