#include "core/history/line_match.h"

#include "core/base/text.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <tuple>

namespace stillroom::history {

using larder::WrittenName;
using quantity::HouseMeasures;
using quantity::Measure;
using spec::Line;
using spec::Measured;
using spec::Spec;

namespace {

std::vector<WrittenName> namesOf(const Spec& spec) {
    std::vector<WrittenName> names;
    names.reserve(spec.lines.size());
    for (const Line& line : spec.lines)
        names.push_back(larder::readName(line.name));
    return names;
}

const Line& lineAt(const Spec& spec, int index) {
    return spec.lines[static_cast<std::size_t>(index)];
}

struct Candidate {
    LinePair pair;
    double score = 0;
    bool sameRole = false;
};

// The best come first. Where nothing else decides, the places do, in a way that does not ask which spec is
// the first.
bool comesBefore(const Candidate& x, const Candidate& y) {
    const auto key = [](const Candidate& c) {
        return std::tuple(-c.score, c.sameRole ? 0 : 1, std::abs(c.pair.a - c.pair.b),
                          std::min(c.pair.a, c.pair.b), std::max(c.pair.a, c.pair.b));
    };
    return key(x) < key(y);
}

class Matching {
  public:
    Matching(const Spec& a, const Spec& b) : m_takenA(a.lines.size()), m_takenB(b.lines.size()) {}

    void take(std::vector<Candidate> candidates) {
        std::sort(candidates.begin(), candidates.end(), comesBefore);
        for (const Candidate& candidate : candidates) {
            const auto i = static_cast<std::size_t>(candidate.pair.a);
            const auto j = static_cast<std::size_t>(candidate.pair.b);
            if (m_takenA[i] || m_takenB[j]) continue;
            m_takenA[i] = m_takenB[j] = true;
            m_pairs.push_back(candidate.pair);
        }
    }
    bool hasA(std::size_t i) const { return m_takenA[i]; }
    bool hasB(std::size_t j) const { return m_takenB[j]; }
    std::vector<LinePair>& pairs() { return m_pairs; }

  private:
    std::vector<bool> m_takenA, m_takenB;
    std::vector<LinePair> m_pairs;
};

bool poursTheSame(const Line& a, const Line& b, const HouseMeasures& house) {
    const auto x = sizeOf(a, house);
    const auto y = sizeOf(b, house);
    return x && y && x->measure == y->measure && x->low == y->low && x->high == y->high;
}

// How well one line answers for another that is gone; 0: not at all.
double standInScore(const Line& a, const WrittenName& nameA, const Line& b, const WrittenName& nameB,
                    const HouseMeasures& house) {
    if (standsFor(nameA, nameB)) return 3;
    if (a.role != b.role) return 0;
    if (sameForm(nameA, nameB)) return 2;
    return poursTheSame(a, b, house) ? 1 : 0;
}

// What keeps its place, of two things that cannot both have kept it: more of the lines, then those that
// stand in for others, then what more is poured of (the bitters moved, not the juice). The last part is the
// pair's own bit: no two runs weigh the same, and turning the specs around changes nothing.
struct Weight {
    int count = 0;
    int standIns = 0;
    std::int64_t micro = 0;
    std::uint64_t own = 0;
    friend Weight operator+(const Weight& x, const Weight& y) {
        return {x.count + y.count, x.standIns + y.standIns, x.micro + y.micro, x.own + y.own};
    }
    friend bool operator<(const Weight& x, const Weight& y) {
        return std::tie(x.count, x.standIns, x.micro, x.own) < std::tie(y.count, y.standIns, y.micro, y.own);
    }
};

std::int64_t microOf(const Line& line, const HouseMeasures& house) {
    const auto size = sizeOf(line, house);
    // A line of tonnes is a line still; it only must not overflow the sum.
    return size ? static_cast<std::int64_t>(std::clamp(size->low, 0.0, 1e9) * 1000) : 0;
}

std::vector<Weight> weightsOf(const std::vector<LinePair>& pairs, const Spec& a, const Spec& b,
                              const HouseMeasures& house) {
    std::vector<Weight> weights;
    std::vector<std::tuple<std::string, std::string, int, int, int, int>> keys;
    for (const LinePair& pair : pairs) {
        const Line& x = lineAt(a, pair.a);
        const Line& y = lineAt(b, pair.b);
        auto names = std::pair(base::fold(x.name), base::fold(y.name));
        if (names.second < names.first) std::swap(names.first, names.second);
        auto roles = std::pair(static_cast<int>(x.role), static_cast<int>(y.role));
        if (roles.second < roles.first) std::swap(roles.first, roles.second);
        keys.emplace_back(names.first, names.second, roles.first, roles.second, std::min(pair.a, pair.b),
                          std::max(pair.a, pair.b));
        weights.push_back({1, pair.likeness > 0 ? 0 : 1, std::min(microOf(x, house), microOf(y, house)), 0});
    }
    std::vector<std::size_t> order(pairs.size());
    for (std::size_t i = 0; i < order.size(); ++i)
        order[i] = i;
    std::sort(order.begin(), order.end(), [&](std::size_t x, std::size_t y) { return keys[x] < keys[y]; });
    for (std::size_t rank = 0; rank < order.size(); ++rank)
        weights[order[rank]].own = rank < 63 ? std::uint64_t{1} << rank : 0;
    return weights;
}

// Marks the pairs outside the heaviest run that kept its order.
void markMoved(std::vector<LinePair>& pairs, const Spec& a, const Spec& b, const HouseMeasures& house) {
    std::sort(pairs.begin(), pairs.end(), [](const LinePair& x, const LinePair& y) { return x.b < y.b; });
    const auto own = weightsOf(pairs, a, b, house);
    const std::size_t n = pairs.size();
    std::vector<Weight> best = own;
    std::vector<std::size_t> before(n, n);
    std::size_t end = n;
    for (std::size_t i = 0; i < n; ++i) {
        for (std::size_t j = 0; j < i; ++j)
            if (pairs[j].a < pairs[i].a && best[i] < best[j] + own[i]) {
                best[i] = best[j] + own[i];
                before[i] = j;
            }
        if (end == n || best[end] < best[i]) end = i;
    }
    for (LinePair& pair : pairs)
        pair.moved = true;
    for (std::size_t i = end; i < n; i = before[i])
        pairs[i].moved = false;
}

} // namespace

std::optional<LineSize> sizeOf(const Measured& measured, const std::optional<Measured>& statedSize,
                               const HouseMeasures& house) {
    if (!measured.amount.isStated()) return std::nullopt;
    LineSize size;
    size.measure = measured.measure.value_or(Measure::Piece);
    double unit = 1;
    const auto& info = quantity::measureInfo(size.measure);
    const bool lawful = info.exactMicrolitres || info.exactMicrograms;
    if (statedSize && !lawful) {
        const auto one = sizeOf(*statedSize, std::nullopt, house);
        if (!one) return std::nullopt;
        unit = one->middle();
        size.measure = one->measure;
    } else if (const auto ml = house.ml(size.measure)) {
        unit = *ml;
        size.measure = Measure::Ml;
    } else if (const auto g = house.grams(size.measure)) {
        unit = *g;
        size.measure = Measure::G;
    }
    unit *= measured.multiplier.toDouble();
    size.low = measured.amount.low.toDouble() * unit;
    size.high = measured.amount.high.toDouble() * unit;
    return size;
}

std::optional<LineSize> sizeOf(const Line& line, const HouseMeasures& house) {
    return sizeOf(line.poured, line.sizeStated, house);
}

std::vector<LinePair> matchedLines(const Spec& a, const Spec& b, const HouseMeasures& house) {
    const auto namesA = namesOf(a);
    const auto namesB = namesOf(b);
    Matching matching(a, b);
    std::vector<Candidate> candidates;
    for (std::size_t i = 0; i < a.lines.size(); ++i)
        for (std::size_t j = 0; j < b.lines.size(); ++j) {
            const double like = likeness(a.lines[i], namesA[i], b.lines[j], namesB[j]);
            if (like > 0)
                candidates.push_back({{static_cast<int>(i), static_cast<int>(j), like, false},
                                      like,
                                      a.lines[i].role == b.lines[j].role});
        }
    matching.take(std::move(candidates));
    candidates.clear();
    for (std::size_t i = 0; i < a.lines.size(); ++i)
        for (std::size_t j = 0; j < b.lines.size() && !matching.hasA(i); ++j) {
            if (matching.hasB(j)) continue;
            const double score = standInScore(a.lines[i], namesA[i], b.lines[j], namesB[j], house);
            if (score > 0)
                candidates.push_back({{static_cast<int>(i), static_cast<int>(j), 0, false},
                                      score,
                                      a.lines[i].role == b.lines[j].role});
        }
    matching.take(std::move(candidates));
    auto pairs = std::move(matching.pairs());
    markMoved(pairs, a, b, house);
    return pairs;
}

} // namespace stillroom::history
