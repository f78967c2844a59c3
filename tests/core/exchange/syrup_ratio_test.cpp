#include "core/exchange/read_text.h"
#include "core/preparation/ratio.h"
#include "tests/support/catch.h"

#include <algorithm>
#include <optional>

using namespace stillroom;
using exchange::DoubtCode;

namespace {

std::optional<exchange::Doubt> ratioDoubt(const std::string& text) {
    const auto read = exchange::readLine(text);
    const auto doubt = std::find_if(read.doubts.begin(), read.doubts.end(), [](const exchange::Doubt& d) {
        return d.code == DoubtCode::RatioBasisUnstated;
    });
    return doubt == read.doubts.end() ? std::nullopt : std::optional(*doubt);
}

} // namespace

TEST_CASE("a syrup by a ratio without its basis is doubted with what both would be", "[exchange][ratio]") {
    for (const auto* text :
         {"30 ml simple syrup (1:1)", "3/4 oz 2:1 demerara syrup", "20 ml Zuckersirup 2:1"}) {
        INFO(text);
        const auto doubt = ratioDoubt(text);
        REQUIRE(doubt);
        CHECK(doubt->weight == exchange::DoubtWeight::Warn);
        CHECK(preparation::outcomesOf(doubt->detail));
    }
    CHECK(ratioDoubt("3/4 oz 2:1 demerara syrup")->detail == "2:1");
}

TEST_CASE("a ratio that says its basis or is none of sugar shows no outcome", "[exchange][ratio]") {
    CHECK_FALSE(ratioDoubt("½ oz rich simple syrup (2:1 by weight)"));
    CHECK_FALSE(ratioDoubt("30 ml syrup, 1:1 by volume"));
    CHECK_FALSE(ratioDoubt("30 ml simple syrup"));
    CHECK_FALSE(ratioDoubt("60 ml gin 1:1"));
    const auto honey = ratioDoubt("15 ml honey syrup (3:1)");
    REQUIRE(honey);
    CHECK_FALSE(preparation::outcomesOf(honey->detail));
}
