#include "core/larder/ratio_syrup.h"

#include "core/base/text.h"
#include "core/larder/handbook.h"
#include "core/physics/sucrose_water.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <memory>
#include <mutex>
#include <unordered_map>

namespace stillroom::larder {

namespace {

constexpr std::uint32_t kMilli = 1000;
constexpr std::uint32_t kMostMilli = 1000 * kMilli;

bool isDigit(char c) {
    return c >= '0' && c <= '9';
}

bool isOneOf(std::string_view word, std::initializer_list<std::string_view> words) {
    return std::find(words.begin(), words.end(), word) != words.end();
}

// "1½" is 1.5; a third has no end in thousandths and is near enough.
std::string withDecimals(std::string_view written) {
    static constexpr std::array<std::pair<std::string_view, std::string_view>, 5> kVulgar{
        {{"½", ".5"}, {"¼", ".25"}, {"¾", ".75"}, {"⅓", ".333"}, {"⅔", ".667"}}};
    std::string text(written);
    for (const auto& [glyph, decimals] : kVulgar)
        for (std::size_t at = text.find(glyph); at != std::string::npos; at = text.find(glyph, at))
            text.replace(at, glyph.size(), decimals);
    return text;
}

// Words of the text, lower case, brackets and commas as spaces, "2 : 1" and "2 to 1" as one word.
std::vector<std::string> wordsOf(std::string_view written) {
    std::string text;
    const std::string plain = withDecimals(written);
    for (std::size_t i = 0; i < plain.size(); ++i) {
        const char c = plain[i];
        const bool inNumber = i > 0 && i + 1 < plain.size() && isDigit(plain[i - 1]) && isDigit(plain[i + 1]);
        if (c == ',' && inNumber)
            text += '.';
        else
            text += std::string_view("(),;[]").find(c) != std::string_view::npos ? ' ' : c;
    }
    std::vector<std::string> words;
    std::string word;
    for (const char c : text + ' ') {
        if (c != ' ') {
            word += c;
            continue;
        }
        if (!word.empty()) words.push_back(std::move(word));
        word.clear();
    }
    std::vector<std::string> joined;
    const auto number = [](const std::string& each) { return !each.empty() && isDigit(each.back()); };
    for (std::size_t i = 0; i < words.size(); ++i) {
        const bool between = i > 0 && i + 1 < words.size() && !joined.empty() && number(joined.back()) &&
                             (isDigit(words[i + 1].front()) || words[i + 1].front() == '.');
        if (between && (words[i] == ":" || base::fold(words[i]) == "to")) {
            joined.back() += ":";
            joined.back() += words[++i];
        } else if (!joined.empty() && joined.back().back() == ':' && number(words[i]))
            joined.back() += words[i];
        else
            joined.push_back(words[i]);
    }
    return joined;
}

std::optional<std::uint32_t> milliFrom(std::string_view text) {
    double whole = 0;
    double place = 0;
    bool digits = false;
    for (const char c : text) {
        if (c == '.') {
            if (place > 0) return std::nullopt;
            place = 1;
        } else if (!isDigit(c)) {
            return std::nullopt;
        } else if (place > 0) {
            place /= 10;
            whole += place * (c - '0');
            digits = true;
        } else {
            whole = whole * 10 + (c - '0');
            digits = true;
        }
        if (whole > 1000) return std::nullopt;
    }
    const double milli = std::round(whole * kMilli);
    if (!digits || milli < 1 || milli > kMostMilli) return std::nullopt;
    return static_cast<std::uint32_t>(milli);
}

std::string partText(std::uint32_t milli) {
    std::string text = std::to_string(milli / kMilli);
    if (milli % kMilli == 0) return text;
    std::string decimals = std::to_string(kMilli + milli % kMilli).substr(1);
    while (decimals.back() == '0')
        decimals.pop_back();
    text += ".";
    return text += decimals;
}

SyrupBasis basisOf(std::string_view folded) {
    if (isOneOf(folded,
                {"weight", "mass", "wt", "weighed", "weighing", "gram", "grams", "poids", "peso", "gewicht"}))
        return SyrupBasis::Mass;
    if (isOneOf(folded, {"volume", "vol", "cup", "cups", "volumen", "volumenteile", "masse"}))
        return SyrupBasis::Volume;
    return SyrupBasis::Unsaid;
}

} // namespace

std::string RatioWords::ratio() const {
    return partText(sweetMilli) + ":" + partText(waterMilli);
}

std::optional<RatioWords> ratioWords(std::string_view written) {
    constexpr std::size_t kLongest = 300; // bytes; beyond it is no name
    if (written.size() > kLongest) return std::nullopt;
    RatioWords found;
    const auto take = [&](std::uint32_t sweet, std::uint32_t water) {
        const bool again = found.sweetMilli != 0 && (found.sweetMilli != sweet || found.waterMilli != water);
        found.sweetMilli = sweet;
        found.waterMilli = water;
        return !again;
    };
    std::vector<std::string> kept;
    const std::vector<std::string> words = wordsOf(written);
    for (std::size_t i = 0; i < words.size(); ++i) {
        const std::string folded = base::fold(words[i]);
        if (const std::size_t colon = words[i].find(':'); colon != std::string::npos) {
            const auto sweet = milliFrom(std::string_view(words[i]).substr(0, colon));
            const auto water = milliFrom(std::string_view(words[i]).substr(colon + 1));
            if (!sweet || !water || !take(*sweet, *water)) return std::nullopt;
        } else if (folded == "equal" && i + 1 < words.size() && base::fold(words[i + 1]) == "parts") {
            if (!take(kMilli, kMilli)) return std::nullopt;
            ++i;
        } else if (const SyrupBasis basis = basisOf(folded); basis != SyrupBasis::Unsaid) {
            if (found.basis != SyrupBasis::Unsaid && found.basis != basis) return std::nullopt;
            found.basis = basis;
            while (!kept.empty() && isOneOf(base::fold(kept.back()), {"by", "in", "the", "nach", "en", "au",
                                                                      "al", "per", "a", "with", "measured"}))
                kept.pop_back();
        } else if (folded != "ratio") {
            kept.push_back(words[i]);
        }
    }
    if (found.sweetMilli == 0) return std::nullopt;
    for (const std::string& word : kept)
        found.rest.append(found.rest.empty() ? "" : " ").append(word);
    return found;
}

namespace {

// What a syrup of the handbook is made of: of these sugar alone and water.
struct MadeOf {
    std::string_view sweetener; // a kind of the handbook
    std::string_view name;      // of its syrup
    std::vector<std::string_view> syrups;
};

const std::vector<MadeOf>& plainSyrups() {
    static const std::vector<MadeOf> all{
        {"sugar_granulated",
         "simple syrup",
         {"simple_1_1_mass", "simple_1_1_volume", "rich_2_1_mass", "rich_2_1_volume", "syrup_3_2",
          "cane_syrup_rich", "pharm_syrup"}},
        {"sugar_demerara", "demerara syrup", {"demerara_2_1", "demerara_1_1"}},
        {"honey", "honey syrup", {"honey_syrup_1_1", "honey_syrup_2_1", "honey_syrup_3_1"}},
        {"agave_syrup", "agave syrup", {"agave_syrup_1_1"}},
        {"maple_syrup", "maple syrup", {"maple_syrup_1_1"}}};
    return all;
}

// The handbook's own kinds of a ratio.
struct OnRecord {
    std::string_view sweetener;
    std::uint32_t sweet, water; // parts
    SyrupBasis basis;
    std::string_view kind;
};
constexpr std::array kOnRecord{
    OnRecord{"sugar_granulated", 1, 1, SyrupBasis::Mass, "simple_1_1_mass"},
    OnRecord{"sugar_granulated", 2, 1, SyrupBasis::Mass, "rich_2_1_mass"},
    OnRecord{"sugar_granulated", 3, 2, SyrupBasis::Mass, "syrup_3_2"},
    OnRecord{"sugar_granulated", 1, 1, SyrupBasis::Volume, "simple_1_1_volume"},
    OnRecord{"sugar_granulated", 2, 1, SyrupBasis::Volume, "rich_2_1_volume"},
    OnRecord{"sugar_demerara", 1, 1, SyrupBasis::Mass, "demerara_1_1"},
    OnRecord{"sugar_demerara", 2, 1, SyrupBasis::Mass, "demerara_2_1"},
    OnRecord{"honey", 1, 1, SyrupBasis::Mass, "honey_syrup_1_1"},
    OnRecord{"honey", 2, 1, SyrupBasis::Mass, "honey_syrup_2_1"},
    OnRecord{"honey", 3, 1, SyrupBasis::Mass, "honey_syrup_3_1"},
    OnRecord{"agave_syrup", 1, 1, SyrupBasis::Mass, "agave_syrup_1_1"},
    OnRecord{"maple_syrup", 1, 1, SyrupBasis::Mass, "maple_syrup_1_1"},
};

std::string_view sweetenerOf(const Ingredient& kind) {
    for (const MadeOf& each : plainSyrups())
        if (kind.handbookId == each.sweetener ||
            std::find(each.syrups.begin(), each.syrups.end(), kind.handbookId) != each.syrups.end())
            return each.sweetener;
    return {};
}

// Of sugar and something for its taste: whatever has acid has juice in it, and the juice has sugar.
bool isFlavoured(const Ingredient& kind) {
    return kind.facts.group == "syrup" && !kind.handbookId.empty() && !kind.facts.dry &&
           !kind.facts.acidGPerL;
}

// "stillroom ratio syrup": three bytes, four of the base kind's id, the basis, both parts.
constexpr std::array<std::uint8_t, 3> kMark{0x5a, 0x72, 0x1c};

base::IngredientId encoded(base::IngredientId base, const RatioWords& words, SyrupBasis basis) {
    base::Bits128 bits;
    std::copy(kMark.begin(), kMark.end(), bits.bytes.begin());
    std::copy_n(base.bits().bytes.begin(), 4, bits.bytes.begin() + 3);
    bits.bytes[7] = static_cast<std::uint8_t>(basis);
    for (std::size_t i = 0; i < 4; ++i) {
        bits.bytes[8 + i] = static_cast<std::uint8_t>(words.sweetMilli >> (8 * (3 - i)));
        bits.bytes[12 + i] = static_cast<std::uint8_t>(words.waterMilli >> (8 * (3 - i)));
    }
    return base::IngredientId(bits);
}

struct Figures {
    double sugarGPerL = 0, densityKgPerM3 = 0, solidsShare = 0, acidGPerL = 0;
};

Figures figuresOf(const FactState& sweetener, bool granulated, double sweet, double water, SyrupBasis basis) {
    const double waterGPerMl = physics::waterDensity(quantity::Temperature::fromCelsius(20)).gPerMl();
    const double gPerMl = granulated                 ? kGranulatedGPerMl
                          : sweetener.densityKgPerM3 ? sweetener.densityKgPerM3->typical / 1000
                                                     : kGranulatedGPerMl;
    const bool volume = basis == SyrupBasis::Volume;
    const double sweetG = sweet * (volume ? gPerMl : 1);
    const double waterG = water * (volume ? waterGPerMl : 1);
    // g in a gram of the sweetener
    const double per = sweetener.dry              ? 1000
                       : sweetener.densityKgPerM3 ? sweetener.densityKgPerM3->typical
                                                  : 1000;
    const auto typical = [&](const std::optional<Fact>& fact) { return fact ? fact->typical / per : 0; };
    const double sugar = granulated ? 1 : typical(sweetener.sugarGPerL);
    const double solids = granulated ? 1
                                     : sugar + typical(sweetener.fatGPerL) + typical(sweetener.proteinGPerL) +
                                           typical(sweetener.carbohydrateGPerL) +
                                           typical(sweetener.otherSolidsGPerL);
    Figures f;
    f.solidsShare = std::min(solids, 1.0) * sweetG / (sweetG + waterG);
    f.densityKgPerM3 =
        physics::sucroseWaterDensityAt20(quantity::MassFraction::fromFraction(f.solidsShare)).kgPerM3();
    const double share = sweetG / (sweetG + waterG);
    f.sugarGPerL = sugar * share * f.densityKgPerM3;
    f.acidGPerL = typical(sweetener.acidGPerL) * share * f.densityKgPerM3;
    return f;
}

Fact computed(double typical, double other, const char* source, SourceKind kind) {
    const auto rounded = [](double v) { return std::round(v * 10) / 10; };
    Fact fact = Fact::single(rounded(typical), kind, source);
    fact.low = rounded(std::min(typical, other));
    fact.high = rounded(std::max(typical, other));
    return fact;
}

struct Decoded {
    const Ingredient* of = nullptr;
    SyrupBasis basis = SyrupBasis::Unsaid;
    RatioWords words;
};

std::optional<Decoded> decoded(base::IngredientId id) {
    const auto& bytes = id.bits().bytes;
    if (!std::equal(kMark.begin(), kMark.end(), bytes.begin())) return std::nullopt;
    if (bytes[7] > static_cast<std::uint8_t>(SyrupBasis::Volume)) return std::nullopt;
    Decoded d;
    d.basis = static_cast<SyrupBasis>(bytes[7]);
    for (std::size_t i = 0; i < 4; ++i) {
        d.words.sweetMilli = (d.words.sweetMilli << 8) | bytes[8 + i];
        d.words.waterMilli = (d.words.waterMilli << 8) | bytes[12 + i];
    }
    const auto sound = [](std::uint32_t milli) { return milli > 0 && milli <= kMostMilli; };
    if (!sound(d.words.sweetMilli) || !sound(d.words.waterMilli)) return std::nullopt;
    for (const Ingredient& kind : Handbook::builtIn().kinds())
        if (std::equal(bytes.begin() + 3, bytes.begin() + 7, kind.id.bits().bytes.begin())) d.of = &kind;
    if (d.of == nullptr) return std::nullopt;
    return d;
}

Ingredient made(base::IngredientId id, const Decoded& d) {
    const Handbook& book = Handbook::builtIn();
    const auto plain = std::find_if(plainSyrups().begin(), plainSyrups().end(),
                                    [&](const MadeOf& each) { return each.sweetener == d.of->handbookId; });
    const bool isPlain = plain != plainSyrups().end();
    const Ingredient& sweetener = isPlain ? *d.of : *book.find("sugar_granulated");
    const bool granulated = sweetener.handbookId == "sugar_granulated";
    const double sweet = d.words.sweetMilli;
    const double water = d.words.waterMilli;
    const bool unsaid = d.basis == SyrupBasis::Unsaid;
    const auto figures =
        figuresOf(sweetener.facts, granulated, sweet, water, unsaid ? SyrupBasis::Mass : d.basis);
    const auto other =
        unsaid ? figuresOf(sweetener.facts, granulated, sweet, water, SyrupBasis::Volume) : figures;
    Ingredient kind;
    kind.id = id;
    kind.handbookId = "ratio_";
    kind.handbookId += id.text();
    kind.name = isPlain ? std::string(plain->name) : d.of->name;
    if (const auto written = ratioWords(kind.name)) kind.name = written->rest; // "cinnamon syrup 1:1"
    kind.name += " ";
    kind.name += d.words.ratio();
    if (d.basis == SyrupBasis::Mass) kind.name += " by mass";
    if (d.basis == SyrupBasis::Volume) kind.name += " by volume";
    FactState& facts = kind.facts;
    if (!isPlain) facts = d.of->facts; // tags, allergens
    constexpr auto kSource = "computed: the ratio as written and ICUMSA SPS-4, all solids taken as sucrose";
    const SourceKind by = isPlain && !unsaid ? SourceKind::Handbook : SourceKind::Assumed;
    facts.group = "syrup";
    facts.dry = false;
    facts.abvPercent = Fact::single(0, SourceKind::Handbook, "no alcohol in sugar and water");
    facts.sugarGPerL = computed(figures.sugarGPerL, other.sugarGPerL, kSource, by);
    facts.densityKgPerM3 = computed(figures.densityKgPerM3, other.densityKgPerM3, kSource, by);
    facts.sugarShares = sweetener.facts.sugarShares;
    if (isPlain && sweetener.facts.dry) {
        facts.acidGPerL = Fact{
            0, 0, 0.5, SourceKind::Assumed, "assumed: a plain spirit, sugar or syrup with no acid on record",
            {}};
        facts.fatGPerL = Fact::single(0, SourceKind::Assumed, "assumed: sugar and water");
        facts.proteinGPerL = Fact::single(0, SourceKind::Assumed, "assumed: sugar and water");
    }
    if (isPlain) {
        facts.tags = sweetener.facts.tags;
        facts.allergens = sweetener.facts.allergens;
        facts.tags.push_back("syrup");
        std::sort(facts.tags.begin(), facts.tags.end());
    }
    return kind;
}

} // namespace

std::optional<RatioKinds> ratioKinds(const RatioWords& words, const Ingredient& rest) {
    const Handbook& book = Handbook::builtIn();
    const std::string_view sweetener = sweetenerOf(rest);
    if (sweetener.empty() && !isFlavoured(rest)) return std::nullopt;
    const Ingredient* base = sweetener.empty() ? &rest : book.find(sweetener);
    if (base == nullptr) return std::nullopt;
    // "cinnamon syrup 1:1" says its own
    const auto own = sweetener.empty() ? ratioWords(rest.name) : std::nullopt;
    const bool isOwn = own && own->ratio() == words.ratio();
    const auto recorded = [&](SyrupBasis basis) -> const Ingredient* {
        if (isOwn && basis == SyrupBasis::Mass) return &rest;
        for (const OnRecord& each : kOnRecord)
            if (each.sweetener == sweetener && each.basis == basis &&
                std::uint64_t{words.sweetMilli} * each.water == std::uint64_t{words.waterMilli} * each.sweet)
                return book.find(each.kind);
        return nullptr;
    };
    const auto of = [&](SyrupBasis basis) {
        const Ingredient* known = recorded(basis);
        return known != nullptr ? known->id : encoded(base->id, words, basis);
    };
    if (words.basis != SyrupBasis::Unsaid) return RatioKinds{of(words.basis), {}, {}};
    const Ingredient* byMass = recorded(SyrupBasis::Mass);
    return RatioKinds{byMass != nullptr ? byMass->id : of(SyrupBasis::Unsaid), of(SyrupBasis::Mass),
                      of(SyrupBasis::Volume)};
}

bool isOfSugar(const Ingredient& syrup) {
    const std::string_view sweetener = sweetenerOf(syrup);
    return sweetener.empty() || sweetener.starts_with("sugar");
}

const Ingredient* ratioSyrup(base::IngredientId id) {
    const auto d = decoded(id);
    if (!d) return nullptr;
    static std::mutex guard;
    static std::unordered_map<base::IngredientId, std::unique_ptr<const Ingredient>> known;
    const std::lock_guard lock(guard);
    auto& kind = known[id];
    if (!kind) kind = std::make_unique<const Ingredient>(made(id, *d));
    return kind.get();
}

} // namespace stillroom::larder
