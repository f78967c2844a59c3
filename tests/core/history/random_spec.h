#pragma once

#include "core/spec/spec.h"

#include <random>

namespace stillroom::tests {

// Specs of every shape, from a seed: twins, nameless lines, lines of one name in two roles, ranges, amounts
// that nobody stated, two spellings of one thing, ingredients that share a name and differ in kind, every
// field of a line, a method and a step now and then.
class RandomSpecs {
  public:
    explicit RandomSpecs(std::uint32_t seed) : m_random(seed) {}

    spec::Spec spec();
    // A few edits away from another, as drafts are.
    spec::Spec near(const spec::Spec& spec);
    std::size_t below(std::size_t n) { return m_random() % n; }

  private:
    bool oneIn(std::size_t n) { return below(n) == 0; }
    spec::Line line();
    spec::Step step();
    spec::Measured measured();
    quantity::Rational rational();
    void fillMethod(spec::Method& method);
    void fillRest(spec::Spec& spec);

    std::mt19937 m_random;
};

} // namespace stillroom::tests
