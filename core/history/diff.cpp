#include "core/history/diff.h"

#include "core/base/text.h"
#include "core/larder/written_name.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace stillroom::history {

using larder::WrittenName;
using quantity::Amount;
using quantity::Dimension;
using quantity::HouseMeasures;
using quantity::Measure;
using spec::Line;
using spec::Measured;
using spec::Spec;

namespace {

bool contains(const std::vector<std::string>& words, const std::string& word) {
    return std::find(words.begin(), words.end(), word) != words.end();
}

bool isSubset(const std::vector<std::string>& small, const std::vector<std::string>& large) {
    return std::all_of(small.begin(), small.end(), [&](const std::string& w) { return contains(large, w); });
}

// Nouns that say only what form a thing has: lemon juice is not lime juice, while dark rum is rum.
bool isOnlyForm(const std::string& head) {
    constexpr std::array kForms{"juice", "syrup",  "liqueur", "bitters", "wine",    "water",   "cream",
                                "milk",  "nectar", "soda",    "puree",   "cordial", "vinegar", "tea",
                                "salt",  "oil",    "leaf",    "peel",    "zest",    "white",   "yolk"};
    return std::find(kForms.begin(), kForms.end(), head) != kForms.end();
}

// Syrups of plain sugar go by several names.
std::vector<std::string> withoutPlainSugar(std::vector<std::string> words) {
    if (!contains(words, "syrup")) return words;
    constexpr std::array kPlain{"simple", "sugar", "plain", "white", "cane"};
    words.erase(std::remove_if(words.begin(), words.end(),
                               [&](const std::string& w) {
                                   return std::find(kPlain.begin(), kPlain.end(), w) != kPlain.end();
                               }),
                words.end());
    return words;
}

bool shareMoreThan(const WrittenName& a, const WrittenName& b) {
    return std::any_of(a.words.begin(), a.words.end(), [&](const std::string& word) {
        return word != a.head && word != b.head && contains(b.words, word);
    });
}

bool pourAlike(const std::string& a, const std::string& b) { // agave nectar, agave syrup
    return (a == "nectar" && b == "syrup") || (a == "syrup" && b == "nectar");
}

double nameLikeness(const WrittenName& a, const WrittenName& b) {
    if (a.words.empty() || b.words.empty()) return a.folded == b.folded ? 1 : 0;
    if (a.key == b.key) return 1;
    const std::size_t letters = std::max(a.folded.size(), b.folded.size());
    const std::size_t slips = letters / 6;
    if (slips > 0 && base::editDistance(a.folded, b.folded, slips) <= slips) return 0.8;
    const auto plainA = withoutPlainSugar(a.words);
    const auto plainB = withoutPlainSugar(b.words);
    const bool heads = a.head == b.head;
    const bool nested = isSubset(plainA, plainB) || isSubset(plainB, plainA);
    if (heads && plainA.size() == plainB.size() && nested) return 0.95;
    if (heads && nested && !(isOnlyForm(a.head) && (plainA.size() == 1 || plainB.size() == 1))) return 0.9;
    if (heads && isOnlyForm(a.head)) return shareMoreThan(a, b) ? 0.5 : 0;
    if (heads) return 0.6;
    if (pourAlike(a.head, b.head) && shareMoreThan(a, b)) return 0.55;
    return 0;
}

// Not the same thing, but what stands in its place: coconut milk, then coconut cream.
bool standsFor(const WrittenName& a, const WrittenName& b) {
    return shareMoreThan(a, b);
}

struct Pair {
    int a = 0;
    int b = 0;
    double likeness = 0;
};

std::vector<Pair> matched(const Spec& a, const Spec& b) {
    std::vector<Pair> candidates;
    for (std::size_t i = 0; i < a.lines.size(); ++i)
        for (std::size_t j = 0; j < b.lines.size(); ++j) {
            const double like = likeness(a.lines[i], b.lines[j]);
            if (like > 0) candidates.push_back({static_cast<int>(i), static_cast<int>(j), like});
        }
    std::stable_sort(candidates.begin(), candidates.end(), [](const Pair& x, const Pair& y) {
        if (x.likeness != y.likeness) return x.likeness > y.likeness;
        return std::abs(x.a - x.b) < std::abs(y.a - y.b);
    });
    std::vector<bool> takenA(a.lines.size()), takenB(b.lines.size());
    std::vector<Pair> pairs;
    for (const Pair& pair : candidates) {
        const auto i = static_cast<std::size_t>(pair.a);
        const auto j = static_cast<std::size_t>(pair.b);
        if (takenA[i] || takenB[j]) continue;
        takenA[i] = takenB[j] = true;
        pairs.push_back(pair);
    }
    return pairs;
}

// A removed and an added line that stand in one another's place keep the order of the others honest.
void pairStandIns(const Spec& a, const Spec& b, std::vector<Pair>& pairs) {
    const auto pairedA = [&](int i) {
        return std::any_of(pairs.begin(), pairs.end(), [i](const Pair& p) { return p.a == i; });
    };
    const auto pairedB = [&](int j) {
        return std::any_of(pairs.begin(), pairs.end(), [j](const Pair& p) { return p.b == j; });
    };
    for (int i = 0; i < static_cast<int>(a.lines.size()); ++i) {
        if (pairedA(i)) continue;
        const auto name = larder::readName(a.lines[static_cast<std::size_t>(i)].name);
        for (int j = 0; j < static_cast<int>(b.lines.size()); ++j) {
            if (pairedB(j) || !standsFor(name, larder::readName(b.lines[static_cast<std::size_t>(j)].name)))
                continue;
            pairs.push_back({i, j, 0});
            break;
        }
    }
}

// The pairs outside the longest run that kept its order; of two that changed places, the one now later.
std::vector<int> movedInB(std::vector<Pair> pairs) {
    std::sort(pairs.begin(), pairs.end(), [](const Pair& x, const Pair& y) { return x.b < y.b; });
    const std::size_t n = pairs.size();
    std::vector<std::size_t> length(n, 1), before(n, n);
    std::size_t end = n;
    for (std::size_t i = 0; i < n; ++i) {
        for (std::size_t j = 0; j < i; ++j)
            if (pairs[j].a < pairs[i].a && length[j] + 1 > length[i]) {
                length[i] = length[j] + 1;
                before[i] = j;
            }
        if (end == n || length[i] > length[end]) end = i;
    }
    std::vector<bool> kept(n);
    for (std::size_t i = end; i < n; i = before[i])
        kept[i] = true;
    std::vector<int> moved;
    for (std::size_t i = 0; i < n; ++i)
        if (!kept[i] && pairs[i].likeness > 0) moved.push_back(pairs[i].b);
    return moved;
}

struct Size {
    double low = 0, high = 0;
    Dimension dimension = Dimension::Count;
    Measure measure = Measure::Piece;
};

// In ml or g where the measure has a size; else in itself.
std::optional<Size> sizeOf(const Measured& measured, const HouseMeasures& house) {
    if (!measured.amount.isStated()) return std::nullopt;
    Size size;
    size.measure = measured.measure.value_or(Measure::Piece);
    size.dimension = quantity::measureInfo(size.measure).dimension;
    double unit = 1;
    if (const auto ml = house.ml(size.measure)) {
        unit = *ml;
        size.dimension = Dimension::Volume;
        size.measure = Measure::Ml;
    } else if (const auto g = house.grams(size.measure)) {
        unit = *g;
        size.dimension = Dimension::Mass;
        size.measure = Measure::G;
    }
    unit *= measured.multiplier.toDouble();
    size.low = measured.amount.low.toDouble() * unit;
    size.high = measured.amount.high.toDouble() * unit;
    return size;
}

bool nearlyEqual(double a, double b) {
    return std::abs(a - b) <= 1e-9 * std::max(std::abs(a), std::abs(b));
}

bool sameAmount(const Measured& a, const Measured& b, const HouseMeasures& house) {
    if (a == b) return true;
    const auto x = sizeOf(a, house);
    const auto y = sizeOf(b, house);
    if (!x || !y) return !x && !y && a.measure == b.measure;
    return x->measure == y->measure && nearlyEqual(x->low, y->low) && nearlyEqual(x->high, y->high);
}

std::optional<double> relativeChange(const Measured& a, const Measured& b, const HouseMeasures& house) {
    const auto x = sizeOf(a, house);
    const auto y = sizeOf(b, house);
    if (!x || !y || x->measure != y->measure) return std::nullopt;
    const double before = 0.5 * (x->low + x->high);
    if (!(before > 0)) return std::nullopt;
    return (0.5 * (y->low + y->high) - before) / before;
}

bool sameRetained(const std::optional<Measured>& a, const std::optional<Measured>& b,
                  const HouseMeasures& house) {
    if (!a || !b) return !a && !b;
    return sameAmount(*a, *b, house);
}

LineDifference compare(const Line& a, const Line& b, int i, int j, bool moved, const HouseMeasures& house) {
    LineDifference d;
    d.a = i;
    d.b = j;
    d.moved = moved;
    d.amount = !sameAmount(a.poured, b.poured, house) || !sameRetained(a.retained, b.retained, house) ||
               a.juiceOf != b.juiceOf;
    if (d.amount) d.relative = relativeChange(a.poured, b.poured, house);
    d.unit = a.poured.measure != b.poured.measure;
    const bool otherThing = a.ingredient && b.ingredient && *a.ingredient != *b.ingredient;
    d.renamed = otherThing || base::fold(a.name) != base::fold(b.name);
    d.place = a.role != b.role || a.optional != b.optional || a.toTaste != b.toTaste;
    d.note = a.qualifier != b.qualifier || a.note != b.note || a.alternatives != b.alternatives ||
             a.temperatureC != b.temperatureC;
    d.same = !d.amount && !d.renamed && !d.moved && !d.place && !d.note;
    return d;
}

LineDifference oneSided(int i, int j) {
    LineDifference d;
    d.a = i;
    d.b = j;
    d.removed = j < 0;
    d.added = i < 0;
    return d;
}

// Removed lines go after the line that stood before them.
void insertRemoved(const Spec& a, std::vector<LineDifference>& rows) {
    for (int i = 0; i < static_cast<int>(a.lines.size()); ++i) {
        const auto isHere = [i](const LineDifference& d) { return d.a == i; };
        if (std::any_of(rows.begin(), rows.end(), isHere)) continue;
        auto at = rows.begin();
        for (int before = i - 1; before >= 0; --before) {
            const auto found = std::find_if(rows.begin(), rows.end(),
                                            [before](const LineDifference& d) { return d.a == before; });
            if (found == rows.end()) continue;
            at = found + 1;
            break;
        }
        rows.insert(at, oneSided(i, -1));
    }
}

} // namespace

double likeness(const Line& a, const Line& b) {
    if (a.ingredient && a.ingredient == b.ingredient) return 1;
    const double names = nameLikeness(larder::readName(a.name), larder::readName(b.name));
    // The larder takes them for two things: like, but only when nothing better answers.
    return a.ingredient && b.ingredient ? 0.9 * names : names;
}

bool SpecDifference::isEmpty() const {
    return !method && !glass && !garnish && !serves && !target &&
           std::all_of(lines.begin(), lines.end(), [](const LineDifference& d) { return d.same; });
}

SpecDifference difference(const Spec& a, const Spec& b, const HouseMeasures& measures) {
    const auto pairs = matched(a, b);
    auto placed = pairs;
    pairStandIns(a, b, placed);
    const auto moved = movedInB(placed);
    SpecDifference result;
    for (int j = 0; j < static_cast<int>(b.lines.size()); ++j) {
        const auto pair = std::find_if(pairs.begin(), pairs.end(), [j](const Pair& p) { return p.b == j; });
        if (pair == pairs.end()) {
            result.lines.push_back(oneSided(-1, j));
            continue;
        }
        const bool isMoved = std::find(moved.begin(), moved.end(), j) != moved.end();
        result.lines.push_back(compare(a.lines[static_cast<std::size_t>(pair->a)],
                                       b.lines[static_cast<std::size_t>(j)], pair->a, j, isMoved, measures));
    }
    insertRemoved(a, result.lines);
    result.method = a.method != b.method;
    result.glass = a.glass != b.glass || a.iceInGlassG != b.iceInGlassG || a.glassGrams != b.glassGrams ||
                   a.preheatedGlass != b.preheatedGlass;
    result.garnish = a.garnish != b.garnish;
    result.serves = a.serves != b.serves;
    result.target = a.partTargetMl != b.partTargetMl || a.yieldMl != b.yieldMl;
    return result;
}

} // namespace stillroom::history
