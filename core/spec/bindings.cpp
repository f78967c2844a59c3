#include "core/spec/bindings.h"

#include "core/base/text.h"
#include "core/larder/at_least.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>
#include <unordered_map>

namespace stillroom::spec {

using quantity::HouseMeasures;
using quantity::HouseSize;
using quantity::Measure;

namespace {

using CountSizes = std::map<std::string, HouseSize, std::less<>>;

std::string singular(const std::string& word) {
    if (word.size() > 3 && word.back() == 's' && word[word.size() - 2] != 's')
        return word.substr(0, word.size() - 1);
    return word;
}

std::vector<std::string> wordsOf(std::string_view text) {
    std::vector<std::string> words = base::foldedWords(text.substr(0, text.find_first_of(",(")));
    for (std::string& word : words)
        word = singular(word);
    return words;
}

bool contains(const std::vector<std::string>& words, const std::vector<std::string>& wanted) {
    return std::all_of(wanted.begin(), wanted.end(), [&](const std::string& word) {
        return std::find(words.begin(), words.end(), word) != words.end();
    });
}

// The most particular key all of whose words are in the name: "raw egg white" finds "egg white", and
// "demerara sugar cube" is taken before "sugar cube". Bottles and cans are measures, not names.
const HouseSize* sizeOf(const CountSizes& sizes, const std::vector<std::string>& nameWords) {
    std::size_t best = 0;
    const HouseSize* size = nullptr;
    for (const auto& [key, entry] : sizes) {
        if (key == "bottle" || key == "can") continue;
        const auto keyWords = wordsOf(key);
        if (keyWords.size() > best && contains(nameWords, keyWords)) {
            best = keyWords.size();
            size = &entry;
        }
    }
    return size;
}

struct CountedSize {
    double ml = 0, g = 0;
    const HouseSize* from = nullptr;
};

CountedSize countedSize(const HouseMeasures& house, std::vector<std::string> words) {
    if (words == std::vector<std::string>{"egg"}) words = {"whole", "egg"};
    const HouseSize* ml = sizeOf(house.countMl, words);
    const HouseSize* g = sizeOf(house.countG, words);
    return {ml != nullptr ? ml->typical : 0, g != nullptr ? g->typical : 0, ml != nullptr ? ml : g};
}

// By what the line says first, then by what the larder calls it.
CountedSize countedSize(const HouseMeasures& house, const Line& line, const larder::Ingredient* ingredient,
                        const char* asWell) {
    std::vector<std::string> names{line.name};
    if (ingredient != nullptr) {
        names.push_back(ingredient->name);
        names.insert(names.end(), ingredient->aliases.begin(), ingredient->aliases.end());
    }
    for (const std::string& name : names) {
        auto words = wordsOf(name);
        if (*asWell != '\0') words.emplace_back(asWell);
        const CountedSize size = countedSize(house, std::move(words));
        if (size.ml > 0 || size.g > 0) return size;
    }
    return {};
}

MeasureSize exactSize(const quantity::Rational& micro) {
    return {quantity::Dimension::Count, micro.toDouble() / 1000, micro.numerator(), micro.denominator()};
}

// A house size is a decimal text; twelve decimals hold every one of them exactly.
MeasureSize decimalSize(double size) {
    constexpr std::int64_t kMicroPerUnit = 1000;
    constexpr std::int64_t kScale = 1'000'000'000'000;
    if (!(size > 0) || size > 9e6) return {};
    const auto scaled = static_cast<std::int64_t>(std::llround(size * static_cast<double>(kScale)));
    const std::int64_t divisor = std::gcd(scaled, kScale / kMicroPerUnit);
    return {quantity::Dimension::Count, size, scaled / divisor, kScale / kMicroPerUnit / divisor};
}

MeasureSize measureSize(const HouseMeasures& house, Measure measure) {
    const auto& info = quantity::measureInfo(measure);
    MeasureSize size;
    if (info.exactMicrolitres) {
        size = exactSize(*info.exactMicrolitres);
    } else if (info.exactMicrograms) {
        size = exactSize(*info.exactMicrograms);
        size.size /= 1000; // µg to mg to g
    } else if (const auto ml = house.ml(measure)) {
        size = decimalSize(*ml);
    } else if (const auto g = house.grams(measure)) {
        size = decimalSize(*g);
        if (std::abs(size.num) < std::numeric_limits<std::int64_t>::max() / 1000) size.num *= 1000;
    }
    size.dimension = info.dimension;
    // A bottle or a can is counted and holds a volume.
    const auto holds = house.countMl.find(info.id);
    if (info.dimension == quantity::Dimension::Count && holds != house.countMl.end()) {
        size = decimalSize(holds->second.typical);
        size.dimension = quantity::Dimension::Volume;
    }
    return size;
}

// "1 can (12 oz)": the can's own size, when its measure has none by law.
std::optional<MeasureSize> statedSize(const Line& line) {
    if (!line.sizeStated || !line.sizeStated->measure) return std::nullopt;
    if (line.sizeStated->amount.kind != quantity::Amount::Kind::Exact) return std::nullopt;
    const auto& own = quantity::measureInfo(line.poured.measure.value_or(Measure::Piece));
    if (own.exactMicrolitres || own.exactMicrograms || own.dimension == quantity::Dimension::Part)
        return std::nullopt;
    const auto& info = quantity::measureInfo(*line.sizeStated->measure);
    const auto& one = info.exactMicrolitres ? info.exactMicrolitres : info.exactMicrograms;
    if (!one) return std::nullopt;
    const auto amount = line.sizeStated->amount.low.times(line.sizeStated->multiplier);
    const auto micro = amount ? amount->times(*one) : std::nullopt;
    if (!micro || !(quantity::Rational(0) < *micro)) return std::nullopt;
    MeasureSize size = exactSize(*micro);
    size.dimension = info.dimension;
    if (info.exactMicrograms) size.size /= 1000; // µg to mg to g
    return size;
}

// A kind with the strength its line states. Nothing without alcohol has one: the 36 % of cream is fat.
// nullptr: as the larder has it.
std::unique_ptr<larder::Ingredient> asWritten(const Line& line, const larder::Ingredient& poured) {
    constexpr double kAlcoholFree = 0.5; // % vol, the most that is still sold as without alcohol
    if (!line.abvStated || !(*line.abvStated >= 0 && *line.abvStated <= 100)) return nullptr;
    if (poured.sort != larder::IngredientSort::Kind || poured.facts.dry) return nullptr;
    const auto& usual = poured.facts.abvPercent;
    if (usual && std::max(usual->typical, usual->high) <= kAlcoholFree) return nullptr;
    auto stronger = std::make_unique<larder::Ingredient>(poured);
    stronger->facts.abvPercent =
        larder::Fact::single(*line.abvStated, larder::SourceKind::Label, "as written");
    // the kind's density was that of its usual strength
    const auto& density = poured.facts.densityKgPerM3;
    if (density && density->sourceKind != larder::SourceKind::Measured)
        stronger->facts.densityKgPerM3.reset();
    return stronger;
}

// Millionths of a major unit for one ml, gram or piece. nullopt: it does not fit.
std::optional<quantity::Rational> exactUnitPrice(const larder::CostRate& rate) {
    auto price = quantity::Rational(rate.price.minor).over(rate.usable);
    if (price) price = price->times(rate.priceShare);
    std::int64_t perMinor = 1'000'000;
    for (int i = 0; i < rate.price.currency.exponent; ++i)
        perMinor /= 10;
    return price ? price->times(perMinor) : std::nullopt;
}

UnitPrice unitPrice(const larder::Ingredient* ingredient, const larder::Larder& larder,
                    const HouseRules& rules) {
    UnitPrice price;
    if (ingredient == nullptr) return price;
    const auto priced = larder::rateOn(larder, *ingredient, {rules.currency, rules.pricesOn, &rules.rates});
    if (!priced) {
        price.fault = priced.error();
        return price;
    }
    price.atLeast = larder::hasTag(ingredient->facts, larder::kPriceAtLeast);
    std::int64_t microPerUnit = 1;
    switch (priced->rate.unit) {
    case larder::PackUnit::Ml:
        price.unit = UnitPrice::Per::Microlitre;
        microPerUnit = 1000;
        break;
    case larder::PackUnit::Gram:
        price.unit = UnitPrice::Per::Microgram;
        microPerUnit = 1'000'000;
        break;
    case larder::PackUnit::Piece:
        price.unit = UnitPrice::Per::Piece;
        break;
    }
    price.major = priced->majorPerUnit;
    price.per = 0;
    auto exact = exactUnitPrice(priced->rate);
    if (exact) exact = exact->over(microPerUnit);
    if (exact) {
        price.millionths = exact->numerator();
        price.per = exact->denominator();
    }
    return price;
}

bool isOneOf(const std::string& word, std::initializer_list<const char*> list) {
    return std::find(list.begin(), list.end(), word) != list.end();
}

// By its kind; by its words where no kind answers: "cracked ice" but not "iced tea".
bool isIce(const Line& line, const larder::Ingredient* poured) {
    if (poured != nullptr) {
        const auto& tags = poured->facts.tags;
        return std::find(tags.begin(), tags.end(), "ice") != tags.end();
    }
    const auto words = wordsOf(line.name);
    const auto isIceWord = [](const std::string& word) {
        return isOneOf(word, {"ice", "cube", "crushed", "cracked", "pebble", "shaved", "block", "fresh",
                              "large", "big", "clear", "of", "handful", "scoop", "cup", "some", "a"});
    };
    return std::find(words.begin(), words.end(), "ice") != words.end() &&
           std::all_of(words.begin(), words.end(), isIceWord);
}

// "lime wedge", "orange twist": squeezed or hung on the rim.
bool isCut(const Line& line) {
    const auto words = wordsOf(line.name);
    return std::any_of(words.begin(), words.end(), [](const std::string& word) {
        return isOneOf(word, {"wedge", "wheel", "slice", "peel", "twist", "zest", "rind", "leaf", "leave",
                              "sprig", "ribbon", "half-wheel"});
    });
}

} // namespace

// What a line's own words and its ingredient's make of a count.
struct NamedAs {
    CountedSize piece, cube;
    bool ice = false, cut = false;
};

struct KnownThing {
    const larder::Ingredient* poured = nullptr;
    PreparedFacts facts = nothingKnown();
    UnitPrice price;
    std::unordered_map<std::string, NamedAs> named; // by the line's name, marked where its juice is meant
};

struct BindingHouse::Data {
    larder::Larder larder; // keeps the ingredients alive
    std::shared_ptr<const HouseRules> rules;
    std::array<MeasureSize, kMeasureCount> sizes{};
    std::unordered_map<base::IngredientId, KnownThing> known; // null id: lines that name nothing known

    KnownThing& thing(base::IngredientId id) {
        const auto found = known.find(id);
        if (found != known.end()) return found->second;
        KnownThing made;
        if (!id.isNull()) made.poured = larder.poured(id);
        if (made.poured != nullptr) made.facts = prepare(made.poured->facts);
        made.price = unitPrice(made.poured, larder, *rules);
        return known.emplace(id, std::move(made)).first->second;
    }

    const NamedAs& named(KnownThing& thing, const Line& line) const {
        std::string key = line.name;
        if (line.juiceOf) key += '\n';
        const auto found = thing.named.find(key);
        if (found != thing.named.end()) return found->second;
        NamedAs made;
        made.piece = countedSize(rules->measures, line, thing.poured, line.juiceOf ? "juice" : "");
        made.cube = countedSize(rules->measures, line, thing.poured, "cube");
        made.ice = isIce(line, thing.poured);
        made.cut = isCut(line);
        return thing.named.emplace(std::move(key), made).first->second;
    }
};

BindingHouse::BindingHouse(const larder::Larder& larder, const HouseRules& rules)
    : m_data(std::make_shared<Data>()) {
    m_data->larder = larder;
    m_data->rules = std::make_shared<const HouseRules>(rules);
    for (const auto& info : quantity::measures())
        m_data->sizes[static_cast<std::size_t>(info.measure)] = measureSize(rules.measures, info.measure);
}

Bindings::Bindings(const Spec& spec, const larder::Larder& larder, const HouseRules& rules)
    : Bindings(spec, BindingHouse(larder, rules)) {}

Bindings::Bindings(const Spec& spec, const BindingHouse& house) : m_data(std::make_unique<Data>()) {
    BindingHouse::Data& of = *house.data();
    m_data->larder = of.larder;
    m_data->rules = of.rules;
    m_data->house = house.data();
    m_data->rinseRetainedMl = of.rules->measures.rinseRetainedMl.typical;
    m_data->sizes = of.sizes;
    m_data->lines.reserve(spec.lines.size());
    for (const Line& line : spec.lines) {
        KnownThing& thing = of.thing(line.ingredient.value_or(base::IngredientId{}));
        const NamedAs& named = of.named(thing, line);
        BoundLine bound;
        bound.poured = thing.poured;
        bound.known = thing.poured != nullptr;
        bound.facts = &thing.facts;
        bound.price = thing.price;
        bound.ice = named.ice;
        bound.stated = statedSize(line);
        if (auto written = bound.known ? asWritten(line, *thing.poured) : nullptr) {
            m_data->prepared.push_back(std::make_unique<PreparedFacts>(prepare(written->facts)));
            bound.facts = m_data->prepared.back().get();
            bound.poured = written.get();
            m_data->asWritten.push_back(std::move(written));
        }
        bound.cut = named.cut;
        bound.pieceMl = named.piece.ml;
        bound.pieceG = named.piece.g;
        bound.cubeMl = named.cube.ml;
        bound.cubeG = named.cube.g;
        bound.piece = named.piece.from;
        bound.cube = named.cube.from;
        m_data->lines.push_back(bound);
    }
}

Bindings::Bindings(Bindings&&) noexcept = default;
Bindings& Bindings::operator=(Bindings&&) noexcept = default;
Bindings::~Bindings() = default;

const HouseRules& Bindings::rules() const {
    return *m_data->rules;
}

const PreparedFacts* Bindings::facts(std::size_t line) const {
    if (line >= m_data->lines.size() || !m_data->lines[line].known) return nullptr;
    return m_data->lines[line].facts;
}

const larder::Ingredient* Bindings::poured(std::size_t line) const {
    return line < m_data->lines.size() ? m_data->lines[line].poured : nullptr;
}

} // namespace stillroom::spec
