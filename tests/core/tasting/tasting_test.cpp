#include "core/tasting/tasting.h"

#include "tests/support/catch.h"

#include <set>

using namespace stillroom::tasting;

TEST_CASE("Verdicts and scales keep the ids they have in files", "[tasting]") {
    CHECK(verdictId(Verdict::None) == "none");
    CHECK(verdictId(Verdict::Keep) == "keep");
    CHECK(verdictId(Verdict::Change) == "change");
    CHECK(verdictId(Verdict::Drop) == "drop");
    for (const Verdict verdict : {Verdict::None, Verdict::Keep, Verdict::Change, Verdict::Drop})
        CHECK(verdictFromId(verdictId(verdict)) == verdict);
    CHECK_FALSE(verdictFromId("maybe"));
    CHECK_FALSE(verdictFromId(""));
    CHECK(scaleId(Scale::Sweet) == "sweet");
    CHECK(scaleId(Scale::Length) == "length");
    std::set<std::string_view> ids;
    for (std::size_t i = 0; i < kScaleCount; ++i)
        ids.insert(scaleId(static_cast<Scale>(i)));
    CHECK(ids.size() == kScaleCount);
}
