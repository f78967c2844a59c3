#include "tests/support/catch.h"
#include "ui/actions/actions.h"
#include "ui/text/words.h"

#include <QSet>

using namespace stillroom;
using namespace stillroom::ui;

TEST_CASE("Every code of core has its sentence", "[ui][text]") {
    for (int code = 0; code <= static_cast<int>(spec::GapCode::PartTargetMissing); ++code)
        CHECK_FALSE(gapSentence(static_cast<spec::GapCode>(code), {QStringLiteral("gin")}).fact.isEmpty());
    for (int code = 0; code <= static_cast<int>(exchange::DoubtCode::LocalSpoon); ++code)
        CHECK_FALSE(doubtQuestion({static_cast<exchange::DoubtCode>(code), exchange::DoubtWeight::Ask, "6/8"})
                        .isEmpty());
    for (int quantity = 0; quantity < static_cast<int>(spec::kQuantityCount); ++quantity)
        CHECK_FALSE(quantityName(static_cast<spec::Quantity>(quantity)).isEmpty());
    for (int kind = 0; kind <= static_cast<int>(store::StoreErrorKind::Refused); ++kind) {
        const auto sentence =
            storeErrorSentence({static_cast<store::StoreErrorKind>(kind), 0, "/b.stillroom", "x"});
        CHECK_FALSE(sentence.fact.isEmpty());
        CHECK_FALSE(sentence.consequence.isEmpty()); // what was kept
    }
}

TEST_CASE("A day is written with its year only when it is another one", "[ui][text]") {
    const auto now = base::instantFromIso("2026-11-25T21:14:07+01:00");
    CHECK(dayText(base::instantFromIso("2026-11-06T23:30:00+01:00"), now) == QStringLiteral("6 Nov"));
    CHECK(dayText(base::instantFromIso("2025-11-06T23:30:00+01:00"), now) == QStringLiteral("6 Nov 2025"));
    CHECK(timeText(now) == QStringLiteral("21:14:07"));
}

TEST_CASE("Every action has words a menu and a key", "[ui][actions]") {
    QSet<QString> ids;
    QSet<QString> keys;
    int expected = 0;
    for (const auto& info : Actions::all()) {
        INFO(info.id);
        CHECK(static_cast<int>(info.act) == expected++);
        CHECK(*info.text != '\0');
        CHECK(*info.help != '\0');
        CHECK(*info.menu != '\0');
        CHECK_FALSE(ids.contains(QString::fromLatin1(info.id)));
        ids.insert(QString::fromLatin1(info.id));
        REQUIRE_FALSE(info.keys.empty());
        for (const auto& key : info.keys) {
            const auto text = key.toString(QKeySequence::PortableText);
            INFO(text.toStdString());
            CHECK_FALSE(keys.contains(text));
            keys.insert(text);
        }
    }
    CHECK(expected == kActCount);
}
