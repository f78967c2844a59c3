#include "core/larder/larder.h"

#include "core/base/text.h"
#include "core/larder/at_least.h"
#include "core/larder/handbook.h"
#include "core/larder/name_match.h"

#include <algorithm>

namespace stillroom::larder {

struct Larder::Data {
    const Handbook* handbook = nullptr;
    std::unordered_map<base::IngredientId, std::shared_ptr<const Ingredient>> own;
    std::vector<base::IngredientId> order; // of `own`, as added
    NameIndex names;                       // of `own`
    std::unordered_map<std::string, base::IngredientId> remembered;
    std::vector<Lot> lots;
    // Those of `own` with a lot in use, with its figures.
    std::unordered_map<base::IngredientId, std::shared_ptr<const Ingredient>> ofLot;

    // By purchase: what of `own` is got from it.
    std::unordered_map<base::IngredientId, std::vector<base::IngredientId>> takers;

    const Lot* lot(base::LotId id) const {
        const auto found = std::find_if(lots.begin(), lots.end(), [&](const Lot& l) { return l.id == id; });
        return found != lots.end() ? &*found : nullptr;
    }
    void overlay(base::IngredientId id);
    void index(const Ingredient* before, const Ingredient& now);
};

namespace {

// The kind's density was that of its usual make.
Ingredient withFiguresOf(const Ingredient& ingredient, const Lot& lot) {
    Ingredient made = ingredient;
    FactState& facts = made.facts;
    if (lot.abvPercent || lot.sugarGPerL || lot.acidGPerL) facts.densityKgPerM3.reset();
    const auto measured = [&facts](std::optional<Fact>& fact, const std::optional<Fact>& of,
                                   std::string_view atLeast) {
        if (!of) return;
        fact = of;
        dropTag(facts, atLeast);
    };
    measured(facts.abvPercent, lot.abvPercent, kStrengthAtLeast);
    measured(facts.sugarGPerL, lot.sugarGPerL, kSugarAtLeast);
    measured(facts.acidGPerL, lot.acidGPerL, kAcidAtLeast);
    if (lot.densityKgPerM3) facts.densityKgPerM3 = lot.densityKgPerM3;
    return made;
}

} // namespace

void Larder::Data::overlay(base::IngredientId id) {
    ofLot.erase(id);
    const auto found = own.find(id);
    if (found == own.end() || !found->second->lotInUse) return;
    const Lot* inUse = lot(*found->second->lotInUse);
    if (inUse != nullptr && inUse->ingredient == id)
        ofLot[id] = std::make_shared<const Ingredient>(withFiguresOf(*found->second, *inUse));
}

void Larder::Data::index(const Ingredient* before, const Ingredient& now) {
    if (before != nullptr && before->gotFrom) std::erase(takers[before->gotFrom->of], now.id);
    if (now.gotFrom) takers[now.gotFrom->of].push_back(now.id);
}

Larder::Larder(std::shared_ptr<Data> data) : m_data(std::move(data)) {}

Larder::Larder() : m_data(std::make_shared<Data>()) {
    m_data->handbook = &Handbook::builtIn();
}

Larder Larder::withoutHandbook() {
    return Larder(std::make_shared<Data>());
}

Larder::Data& Larder::ownData() {
    if (m_data.use_count() > 1) m_data = std::make_shared<Data>(*m_data);
    return *m_data;
}

const Ingredient* Larder::find(base::IngredientId id) const {
    const auto found = m_data->own.find(id);
    if (found != m_data->own.end()) return found->second.get();
    return m_data->handbook ? m_data->handbook->find(id) : nullptr;
}

const Ingredient* Larder::poured(base::IngredientId id) const {
    const Ingredient* ingredient = find(id);
    if (ingredient != nullptr && ingredient->houseBottle)
        if (const Ingredient* bottle = find(*ingredient->houseBottle)) ingredient = bottle;
    if (ingredient == nullptr) return nullptr;
    const auto lot = m_data->ofLot.find(ingredient->id);
    return lot != m_data->ofLot.end() ? lot->second.get() : ingredient;
}

NameMatch Larder::match(std::string_view writtenName) const {
    const auto remembered = m_data->remembered.find(base::fold(writtenName));
    if (remembered != m_data->remembered.end() && find(remembered->second))
        return {MatchQuality::Remembered, remembered->second, {}, readNameStripped(writtenName).statedAbv};
    NameSources sources;
    sources.own = &m_data->names;
    sources.handbook = m_data->handbook ? &handbookNames() : nullptr;
    sources.find = [this](base::IngredientId id) { return find(id); };
    return matchName(writtenName, sources);
}

std::vector<base::IngredientId> Larder::search(std::string_view text, std::size_t limit) const {
    constexpr std::size_t longestTyped = 300; // bytes
    if (text.size() > longestTyped) return {};
    std::vector<std::string> typed;
    std::size_t letters = 0;
    const std::string folded = readName(text).folded;
    for (const std::string& word : base::foldedWords(folded)) {
        typed.push_back(word);
        letters += word.size();
    }
    if (typed.empty()) return {};

    struct Found {
        base::IngredientId id;
        double score;
        bool own;
    };
    std::vector<Found> found;
    const auto take = [&](const std::vector<NameScore>& scores) {
        for (const NameScore& score : scores) {
            if (std::any_of(found.begin(), found.end(), [&](const Found& f) { return f.id == score.id; }))
                continue;
            found.push_back({score.id, score.score, m_data->own.contains(score.id)});
        }
    };
    take(m_data->names.beginning(typed));
    if (m_data->handbook) take(handbookNames().index.beginning(typed));
    if (found.empty()) {
        take(m_data->names.beginningRoughly(typed));
        if (m_data->handbook) take(handbookNames().index.beginningRoughly(typed));
    }
    if (letters < 3) {
        std::stable_sort(found.begin(), found.end(), [this](const Found& a, const Found& b) {
            if (a.own != b.own) return a.own;
            return base::compareForPeople(find(a.id)->name, find(b.id)->name) < 0;
        });
    } else {
        std::stable_sort(found.begin(), found.end(), [](const Found& a, const Found& b) {
            if (a.own != b.own) return a.own;
            return a.score > b.score;
        });
    }
    std::vector<base::IngredientId> ids;
    for (std::size_t i = 0; i < found.size() && i < limit; ++i)
        ids.push_back(found[i].id);
    return ids;
}

std::vector<const Ingredient*> Larder::gotFrom(base::IngredientId purchase) const {
    std::vector<const Ingredient*> found;
    const auto takers = m_data->takers.find(purchase);
    if (takers == m_data->takers.end()) return found;
    for (const base::IngredientId id : takers->second)
        found.push_back(find(id));
    return found;
}

std::vector<const Ingredient*> Larder::all() const {
    std::vector<const Ingredient*> everything;
    for (const base::IngredientId id : m_data->order)
        everything.push_back(find(id));
    if (m_data->handbook)
        for (const Ingredient& kind : m_data->handbook->kinds())
            if (!m_data->own.contains(kind.id)) everything.push_back(&kind);
    return everything;
}

void Larder::put(Ingredient ingredient) {
    Data& data = ownData();
    const auto found = data.own.find(ingredient.id);
    if (found == data.own.end()) {
        data.order.push_back(ingredient.id);
        data.names.add(ingredient);
    } else if (found->second->name != ingredient.name || found->second->aliases != ingredient.aliases) {
        data.names.remove(*found->second);
        data.names.add(ingredient);
    }
    data.index(found != data.own.end() ? found->second.get() : nullptr, ingredient);
    const base::IngredientId id = ingredient.id;
    data.own[id] = std::make_shared<const Ingredient>(std::move(ingredient));
    data.overlay(id);
}

void Larder::put(Lot lot) {
    Data& data = ownData();
    const auto found =
        std::find_if(data.lots.begin(), data.lots.end(), [&](const Lot& l) { return l.id == lot.id; });
    const base::IngredientId ingredient = lot.ingredient;
    if (found != data.lots.end())
        *found = std::move(lot);
    else
        data.lots.push_back(std::move(lot));
    data.overlay(ingredient);
}

bool Larder::isFromLot(base::IngredientId id) const {
    return m_data->ofLot.contains(id);
}

std::vector<Lot> Larder::lots(base::IngredientId ingredient) const {
    std::vector<Lot> found;
    for (const Lot& lot : m_data->lots)
        if (lot.ingredient == ingredient) found.push_back(lot);
    std::stable_sort(found.begin(), found.end(), [](const Lot& a, const Lot& b) { return a.on > b.on; });
    return found;
}

void Larder::remember(std::string_view writtenName, base::IngredientId id) {
    ownData().remembered[base::fold(writtenName)] = id;
}

const std::unordered_map<std::string, base::IngredientId>& Larder::remembered() const {
    return m_data->remembered;
}

} // namespace stillroom::larder
