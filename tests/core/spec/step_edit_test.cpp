#include "core/spec/step_edit.h"

#include "tests/core/spec/builder.h"
#include "tests/support/catch.h"

using namespace stillroom;
using namespace stillroom::test;
using spec::Step;
using spec::StepKind;

namespace {

Step step(StepKind kind) {
    Step made;
    made.kind = kind;
    return made;
}

// Honey first, heather before the straining, acid after all.
spec::Spec cordial() {
    spec::Spec made = drink({line("honey", 500), line("heather", 12), line("acid", 3)});
    made.steps = {step(StepKind::Dissolve), step(StepKind::Strain)};
    made.lines[1].beforeStep = 1;
    made.lines[2].beforeStep = 2;
    return made;
}

std::vector<int> places(const spec::Spec& spec) {
    std::vector<int> all;
    for (const auto& line : spec.lines)
        all.push_back(line.beforeStep);
    return all;
}

} // namespace

TEST_CASE("A step put in moves what goes in later", "[step-edit]") {
    const auto before = cordial();
    CHECK(places(spec::withStep(before, 0, step(StepKind::Steep))) == std::vector<int>{0, 2, 3});
    CHECK(places(spec::withStep(before, 1, step(StepKind::Steep))) == std::vector<int>{0, 1, 3});
    const auto last = spec::withStep(before, 2, step(StepKind::Freeze));
    CHECK(places(last) == std::vector<int>{0, 1, 2});
    REQUIRE(last.steps.size() == 3);
    CHECK(last.steps[2].kind == StepKind::Freeze);
    CHECK(spec::withStep(before, 3, step(StepKind::Freeze)) == before);
}

TEST_CASE("A step taken out leaves its lines where they went in", "[step-edit]") {
    const auto before = cordial();
    const auto without = spec::withoutStep(before, 0);
    CHECK(places(without) == std::vector<int>{0, 0, 1});
    REQUIRE(without.steps.size() == 1);
    CHECK(without.steps[0].kind == StepKind::Strain);
    CHECK(spec::withoutStep(before, 2) == before);
    CHECK(spec::withoutStep(spec::withStep(before, 1, step(StepKind::Blend)), 1) == before);
}

TEST_CASE("Steps change places and lines do not", "[step-edit]") {
    const auto before = cordial();
    const auto moved = spec::withStepMoved(before, 0, 1);
    CHECK(moved.steps[0].kind == StepKind::Strain);
    CHECK(places(moved) == places(before));
    CHECK(spec::withStepMoved(moved, 1, 0) == before);
    CHECK(spec::withStepMoved(before, 0, 2) == before);
}

TEST_CASE("A line goes in before a step that there is and a yield is above zero", "[step-edit]") {
    const auto before = cordial();
    CHECK(places(spec::withLineEntering(before, 0, 2)) == std::vector<int>{2, 1, 2});
    CHECK(spec::withLineEntering(before, 0, 3) == before);
    CHECK(spec::withLineEntering(before, 9, 0) == before);
    CHECK(spec::withYield(before, 807).yieldMl == 807.0);
    CHECK(spec::withYield(before, -1) == before);
    CHECK_FALSE(spec::withYield(spec::withYield(before, 807), std::nullopt).yieldMl);
}
