#include "core/spec/stage_shares.h"

#include "core/physics/mixture.h"
#include "tests/core/spec/builder.h"
#include "tests/support/catch.h"

using namespace stillroom;
using namespace stillroom::test;
using spec::Quantity;
using spec::Stage;

TEST_CASE("the shares of a stage are those the mixture model adds up", "[spec][shares]") {
    Shelf s;
    s.put("gin", {{43}, {0}, {0}}).put("syrup", {{0}, {615}, {0}}).put("no sugar", {{20}, {}, {0}});
    const auto d = drink({line("gin", 60), line("syrup", 30)});
    const auto shares = spec::stageShares(s.read(d)[Stage::Served]);
    REQUIRE(shares.totalMl);
    CHECK(*shares.totalMl == Approx(s.read(d)[Stage::Served][Quantity::Volume].value));
    CHECK(shares.alcoholMl == Approx(60 * 0.43).epsilon(1e-4));
    const auto masses = spec::compositionOf(d, spec::Bindings(d, s.larder, s.rules()), Stage::Served);
    CHECK(shares.sugarMl == Approx(physics::volumeTermsAt20(masses).sugar.ml()).epsilon(0.02));
    CHECK_FALSE(shares.sugarAtLeast);

    const auto open = spec::stageShares(s.read(drink({line("no sugar", 50)}))[Stage::Served]);
    CHECK(open.sugarAtLeast);
    CHECK_FALSE(spec::stageShares({}).totalMl);
}
