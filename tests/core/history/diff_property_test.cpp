#include "core/history/diff.h"
#include "core/history/patch.h"
#include "tests/core/history/random_spec.h"
#include "tests/support/catch.h"

#include <algorithm>

using namespace stillroom;
using history::difference;
using quantity::HouseMeasures;
using spec::Spec;

namespace {

constexpr int kRounds = 4000;

const HouseMeasures& house() {
    return HouseMeasures::defaults();
}

// Half of the pairs are strangers, half are a few edits apart.
template <class Check>
void forPairs(std::uint32_t seed, Check check) {
    tests::RandomSpecs random(seed);
    for (int round = 0; round < kRounds; ++round) {
        const Spec a = random.spec();
        const Spec b = round % 2 == 0 ? random.spec() : random.near(a);
        INFO("round " << round << "\n" << a.canonicalJson() << "\n" << b.canonicalJson());
        check(a, b);
    }
}

} // namespace

TEST_CASE("no spec differs from itself whatever its shape", "[diff][property]") {
    tests::RandomSpecs random(11);
    for (int round = 0; round < kRounds; ++round) {
        const Spec a = random.spec();
        INFO(a.canonicalJson());
        REQUIRE(difference(a, a, house()).isEmpty());
        REQUIRE(history::patch(a, a).isEmpty());
        REQUIRE(history::inWords(difference(a, a, house()), a, a) == "no change");
        REQUIRE(history::apply(history::patch(a, a), a).value() == a);
    }
}

TEST_CASE("a difference seen from the other side is its inverse", "[diff][property]") {
    forPairs(12, [](const Spec& a, const Spec& b) {
        const auto there = difference(a, b, house());
        REQUIRE(history::inverse(there) == difference(b, a, house()));
        REQUIRE(history::inverse(history::inverse(there)) == there);
    });
}

TEST_CASE("applying a patch gives the other spec word for word", "[diff][property]") {
    int changed = 0;
    forPairs(13, [&](const Spec& a, const Spec& b) {
        const auto there = history::patch(a, b);
        const auto got = history::apply(there, a);
        REQUIRE(got.has_value());
        REQUIRE(*got == b);
        REQUIRE(there.isEmpty() == (a == b));
        const auto back = history::inverse(there);
        REQUIRE(back == history::patch(b, a));
        REQUIRE(history::apply(back, b).value() == a);
        changed += a == b ? 0 : 1;
    });
    CHECK(changed > kRounds / 2); // the generator gives pairs that differ
}

TEST_CASE("a patch of another spec is refused and never half applied", "[diff][property]") {
    int refused = 0;
    tests::RandomSpecs random(14);
    for (int round = 0; round < kRounds; ++round) {
        const Spec a = random.spec();
        const Spec b = random.near(a);
        const Spec other = random.near(a);
        const auto got = history::apply(history::patch(a, b), other);
        if (!got) ++refused;
        // Where it fits, what it does not speak of stays as it was there.
        if (got && a.method == b.method) CHECK(got->method == other.method);
    }
    CHECK(refused > 0);
    // A patch made by hand, as a damaged one would be.
    const Spec a = random.spec();
    history::SpecPatch broken = history::patch(a, a);
    broken.lines.push_back({99, 0, {}, {}});
    CHECK_FALSE(history::apply(broken, a).has_value());
}

TEST_CASE("every line stands in one row and pairs keep their order but for the moved", "[diff][property]") {
    forPairs(15, [](const Spec& a, const Spec& b) {
        const auto d = difference(a, b, house());
        std::vector<int> seenA(a.lines.size()), seenB(b.lines.size());
        int lastA = -1;
        for (const auto& row : d.lines) {
            if (row.a >= 0) ++seenA[static_cast<std::size_t>(row.a)];
            if (row.b >= 0) ++seenB[static_cast<std::size_t>(row.b)];
            REQUIRE(row.added == (row.a < 0));
            REQUIRE(row.removed == (row.b < 0));
            if (row.a < 0 || row.b < 0 || row.moved) continue;
            REQUIRE(row.a > lastA);
            lastA = row.a;
        }
        REQUIRE(std::all_of(seenA.begin(), seenA.end(), [](int n) { return n == 1; }));
        REQUIRE(std::all_of(seenB.begin(), seenB.end(), [](int n) { return n == 1; }));
        for (const auto& row : d.lines)
            if (row.insteadOf >= 0) {
                const auto partner = std::find_if(d.lines.begin(), d.lines.end(), [&](const auto& other) {
                    return row.added ? other.removed && other.a == row.insteadOf
                                     : other.added && other.b == row.insteadOf;
                });
                REQUIRE(partner != d.lines.end());
                REQUIRE(partner->insteadOf == (row.added ? row.b : row.a));
            }
    });
}

TEST_CASE("shuffling the lines changes nothing but their order", "[diff][property]") {
    tests::RandomSpecs random(16);
    for (int round = 0; round < kRounds; ++round) {
        const Spec a = random.spec();
        Spec b = a;
        for (std::size_t i = b.lines.size(); i > 1; --i)
            std::swap(b.lines[i - 1], b.lines[random.below(i)]);
        INFO(a.canonicalJson() << "\n" << b.canonicalJson());
        const auto d = difference(a, b, house());
        // Lines that nothing tells apart but their amounts may be taken for one another.
        bool twins = false;
        for (std::size_t i = 0; i < a.lines.size(); ++i)
            for (std::size_t j = 0; j < i; ++j)
                twins |= history::likeness(a.lines[i], a.lines[j]) > 0;
        if (twins) continue;
        for (const auto& row : d.lines) {
            REQUIRE_FALSE(row.added);
            REQUIRE_FALSE(row.removed);
            REQUIRE_FALSE(row.amount);
            REQUIRE_FALSE(row.renamed);
        }
        REQUIRE_FALSE((d.method || d.glass || d.garnish || d.steps));
    }
}
