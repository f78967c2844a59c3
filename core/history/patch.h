#pragma once

#include "core/spec/spec.h"

#include <tl/expected.hpp>

#include <optional>
#include <vector>

namespace stillroom::history {

// A difference says what a person sees. A patch carries enough to make one spec of the other, word for word:
//     apply(patch(a, b), a) == b        patch(b, a) == inverse(patch(a, b))        patch(a, a).isEmpty()
struct LinePatch {
    int a = -1;                              // index into the spec it is applied to; −1: put in
    int b = -1;                              // index into what comes out; −1: taken out
    std::optional<spec::Line> before, after; // left out where the line stays as it is
    friend bool operator==(const LinePatch&, const LinePatch&) = default;
};

template <class T>
struct Change {
    T before, after;
    friend bool operator==(const Change&, const Change&) = default;
};

struct SpecPatch {
    std::vector<LinePatch> lines; // in the order of what comes out, then those taken out
    std::optional<Change<spec::Method>> method;
    // All fields of a spec but its lines and its method: glass, garnish, serves, target, steps.
    std::optional<Change<spec::Spec>> rest;
    bool isEmpty() const;
    friend bool operator==(const SpecPatch&, const SpecPatch&) = default;
};

SpecPatch patch(const spec::Spec& a, const spec::Spec& b);
SpecPatch inverse(const SpecPatch& patch);

// Why a patch does not fit the spec it is put on: it was made of another one.
enum class PatchMisfit : std::uint8_t { Lines, Method, Rest };
tl::expected<spec::Spec, PatchMisfit> apply(const SpecPatch& patch, const spec::Spec& to);

} // namespace stillroom::history
