#include "core/larder/stock_change.h"

#include "tests/support/catch.h"

using namespace stillroom::larder;

TEST_CASE("a word about the shelf takes away a count that says otherwise", "[stock-change]") {
    Stock counted;
    counted.state = OnShelf::Have;
    counted.amount = 700;
    counted.countedOn = "2026-11-01";
    const Stock low = withState(counted, OnShelf::Low, "2026-11-25");
    CHECK(low.amount == 700);
    CHECK(low.countedOn == "2026-11-25");
    CHECK_FALSE(withState(counted, OnShelf::Out, "2026-11-25").amount);
    const Stock unsaid = withState(counted, OnShelf::NotSaid, "2026-11-25");
    CHECK_FALSE(unsaid.amount);
    CHECK(unsaid.countedOn.empty());
    Stock none = counted;
    none.state = OnShelf::Out;
    none.amount = 0;
    CHECK_FALSE(withState(none, OnShelf::Have, "2026-11-25").amount);
}

TEST_CASE("a count says whether there is any", "[stock-change]") {
    const Stock some = withAmount({}, 350, PackUnit::Gram, "2026-11-25");
    CHECK(some.state == OnShelf::Have);
    CHECK(some.unit == PackUnit::Gram);
    CHECK(some.countedOn == "2026-11-25");
    CHECK(withAmount(some, 0, PackUnit::Gram, "2026-11-25").state == OnShelf::Out);
    Stock low = some;
    low.state = OnShelf::Low;
    CHECK(withAmount(low, 40, PackUnit::Gram, "2026-11-25").state == OnShelf::Low);
    const Stock uncounted = withAmount(some, std::nullopt, PackUnit::Ml, "2026-11-25");
    CHECK_FALSE(uncounted.amount);
    CHECK(uncounted.state == OnShelf::Have);
}
