#include "tests/support/catch.h"

#include "ui/plots/balance_map.h"
#include "ui/plots/glass_drawing.h"
#include "ui/plots/plot_text.h"
#include "ui/plots/stage_columns.h"
#include "ui/plots/trail.h"
#include "ui/plots/trail_threads.h"
#include "ui/theme/theme.h"

#include <QAccessible>
#include <QApplication>
#include <QClipboard>
#include <QPainter>
#include <QSignalSpy>
#include <QTest>

using namespace stillroom::ui;
using namespace Qt::Literals::StringLiterals;

namespace {

TrailValues branched() {
    TrailValues values;
    const auto add = [&](const QString& number, int parent, StateMark state) {
        TrailMark mark;
        mark.number = number;
        mark.parent = parent;
        mark.state = state;
        mark.date = u"6 Nov"_s;
        mark.changed = u"lemon 22.5 → 20 ml"_s;
        mark.reason = u"too sharp"_s;
        mark.tastes = {{u"MK"_s, stillroom::tasting::Verdict::Drop}};
        values.marks.push_back(mark);
    };
    add(u"r1"_s, -1, StateMark::Kept);
    add(u"r2"_s, 0, StateMark::Kept);
    add(u"r3"_s, 1, StateMark::SetAside);
    add(u"r4"_s, 1, StateMark::House);
    add(u"draft"_s, 3, StateMark::Draft);
    return values;
}

TrailValues longTrail(int count) {
    TrailValues values;
    for (int i = 0; i < count; ++i) {
        TrailMark mark;
        mark.number = u"r%1"_s.arg(i + 1);
        mark.parent = i - 1;
        mark.changed = u"lemon"_s;
        values.marks.push_back(mark);
    }
    return values;
}

} // namespace

TEST_CASE("The trail is walked by arrows and its ends by Home and End", "[plots]") {
    Trail trail;
    trail.resize(1200, 168);
    trail.setValues(branched());
    trail.show();
    CHECK(trail.cursor() == 4); // begins at what is newest
    QTest::keyClick(&trail, Qt::Key_Left);
    CHECK(trail.cursor() == 3);
    QTest::keyClick(&trail, Qt::Key_Home);
    CHECK(trail.cursor() == 0);
    QTest::keyClick(&trail, Qt::Key_Left);
    CHECK(trail.cursor() == 0);
    QTest::keyClick(&trail, Qt::Key_Right);
    QTest::keyClick(&trail, Qt::Key_Up);
    CHECK(trail.cursor() == 2); // up the branch
    QTest::keyClick(&trail, Qt::Key_Down);
    CHECK(trail.cursor() == 1); // and back to what it grew from
    QTest::keyClick(&trail, Qt::Key_End);
    CHECK(trail.cursor() == 4);
    QSignalSpy activated(&trail, &Trail::activated);
    QTest::keyClick(&trail, Qt::Key_Return);
    REQUIRE(activated.count() == 1);
    CHECK(activated.front().front().toInt() == 4);
}

TEST_CASE("Enter unfolds a run and every mark of it can then be reached", "[plots]") {
    Trail trail;
    trail.resize(600, 168);
    trail.setValues(longTrail(40));
    trail.show();
    const auto folded = trail.geometry().items.size();
    REQUIRE(folded < 40);
    QTest::keyClick(&trail, Qt::Key_Home);
    QTest::keyClick(&trail, Qt::Key_Right);
    CHECK(trail.words().contains(u"more"_s));
    QTest::keyClick(&trail, Qt::Key_Return);
    CHECK(trail.geometry().items.size() == 40);
    QTest::keyClick(&trail, Qt::Key_Home);
    for (int i = 0; i < 39; ++i) {
        CHECK(trail.cursor() == i);
        QTest::keyClick(&trail, Qt::Key_Right);
    }
    CHECK(trail.cursor() == 39);
}

TEST_CASE("An edit of the draft leaves the keyboard where it is", "[plots]") {
    Trail trail;
    trail.resize(1200, 168);
    auto values = branched();
    trail.setValues(values);
    trail.setCursor(1);
    values.marks.back().changed = u"lemon 22.5 → 17.5 ml"_s;
    trail.setValues(values);
    CHECK(trail.cursor() == 1);
}

TEST_CASE("Every drawing has a name and says in words and rows what it shows", "[plots]") {
    QAccessible::setActive(true);
    Trail trail;
    trail.resize(1200, 168);
    trail.setValues(branched());
    GlassDrawing glass;
    glass.resize(262, 310);
    GlassValues poured;
    std::vector<stillroom::spec::GlassLayer> layers(2);
    layers[0].volumeMl = layers[0].standsMl = 156;
    layers[1].volumeMl = layers[1].standsMl = 10;
    poured.filling = stillroom::spec::stand(layers, {}, std::nullopt, nullptr);
    poured.layerNames = {u"mixed"_s, u"float"_s};
    glass.setValues(poured);
    BalanceMap map;
    map.resize(350, 300);
    BalanceValues balance;
    MapPoint now;
    now.label = u"draft"_s;
    now.sugar = 7.2;
    now.acid = 0.73;
    now.sugarOpen = Open::Above;
    balance.now = now;
    map.setValues(balance);
    StageColumns stages;
    stages.setValues({{{u"measured"_s, 101.5, 24.5, 7, true, false}}, {}});

    for (PlotWidget* plot : {static_cast<PlotWidget*>(&trail), static_cast<PlotWidget*>(&glass),
                             static_cast<PlotWidget*>(&map), static_cast<PlotWidget*>(&stages)}) {
        CHECK_FALSE(plot->accessibleName().isEmpty());
        CHECK_FALSE(plot->words().isEmpty());
        REQUIRE(plot->rows().size() >= 2);
        for (const auto& row : plot->rows())
            CHECK(row.size() == plot->rows().front().size());
        auto* interface = QAccessible::queryAccessibleInterface(plot);
        REQUIRE(interface != nullptr);
        CHECK(interface->text(QAccessible::Name) == plot->accessibleName());
        CHECK(interface->text(QAccessible::Description) == plot->words());
        CHECK(interface->text(QAccessible::Value) == plot->tableText());
        CHECK(plot->focusPolicy() == Qt::StrongFocus);
        QTest::keyClick(plot, Qt::Key_C, Qt::ControlModifier);
        CHECK(QGuiApplication::clipboard()->text() == plot->tableText());
    }
    CHECK(map.words().contains(u"at least"_s)); // a floor is not told as a fact
    CHECK(map.tableText().contains(u"≥"_s));
    trail.setCursor(2);
    CHECK(trail.words().contains(u"MK would drop it"_s));
    CHECK(trail.words().contains(u"set aside"_s));
    QAccessible::setActive(false);
}

TEST_CASE("Drawings survive having nothing to draw and almost no room", "[plots]") {
    for (const QSize size : {QSize(1, 1), QSize(40, 30), QSize(900, 400)}) {
        Trail trail;
        GlassDrawing glass;
        BalanceMap map;
        StageColumns stages;
        for (QWidget* widget : {static_cast<QWidget*>(&trail), static_cast<QWidget*>(&glass),
                                static_cast<QWidget*>(&map), static_cast<QWidget*>(&stages)}) {
            widget->resize(size);
            CHECK_FALSE(widget->grab().isNull());
        }
        trail.setValues(longTrail(30));
        CHECK_FALSE(trail.grab().isNull());
    }
    CHECK(Trail().words().contains(u"Each version you keep"_s));
}

TEST_CASE("A small line does not run straight through what is only a bound", "[plots]") {
    using Kind = TrailReading::Kind;
    const auto reading = [](Kind kind) { return TrailReading{8.0, std::nullopt, kind, u"8.0"_s}; };
    CHECK(threadStroke(reading(Kind::Exact), reading(Kind::Exact)) == ThreadStroke::Solid);
    CHECK(threadStroke(reading(Kind::Exact), reading(Kind::Estimate)) == ThreadStroke::Dashed);
    CHECK(threadStroke(reading(Kind::AtLeast), reading(Kind::Exact)) == ThreadStroke::Dotted);
    CHECK(threadStroke(reading(Kind::Estimate), reading(Kind::Between)) == ThreadStroke::Dotted);

    // The same three numbers drawn as numbers and as floors are two pictures, in black and white too.
    const auto drawn = [&](Kind kind) {
        auto values = branched();
        for (auto& mark : values.marks)
            mark.strength = mark.sugarAcid = reading(kind);
        QImage image(132, 168, QImage::Format_Grayscale8);
        image.fill(Qt::white);
        QPainter painter(&image);
        paintThreads(painter, QRectF(0, 0, 132, 168), values, Look::of(Mode::Light));
        return image;
    };
    CHECK(drawn(Kind::Exact) != drawn(Kind::Estimate));
    CHECK(drawn(Kind::Exact) != drawn(Kind::AtLeast));
    CHECK(drawn(Kind::AtLeast) != drawn(Kind::AtMost));
}

namespace {

// r1 … r4, a branch off r3 that ends at r5, and two further drafts off r4.
TrailValues forked() {
    TrailValues values;
    const auto add = [&](const QString& number, int parent, StateMark state) {
        TrailMark mark;
        mark.number = number;
        mark.parent = parent;
        mark.state = state;
        mark.date = u"22 Nov"_s;
        mark.changed = u"London dry gin 45 → 50 ml; gentian liqueur 20 → 10 ml; + egg white 1"_s;
        mark.did = u"16.1 → 17.0 % vol, sugar : acid ≥ 4.7 → ≥ 4.9"_s;
        mark.reason = u"less tonic, more gin"_s;
        values.marks.push_back(mark);
    };
    add(u"r1"_s, -1, StateMark::Kept);
    add(u"r2"_s, 0, StateMark::Kept);
    add(u"r3"_s, 1, StateMark::Kept);
    add(u"r4"_s, 2, StateMark::House);
    add(u"r5"_s, 2, StateMark::Kept);
    add(u"draft"_s, 3, StateMark::Draft);
    add(u"draft"_s, 3, StateMark::Draft);
    return values;
}

TrailGeometry geometryOf(const TrailValues& values, QSizeF view) {
    const auto look = Look::of(Mode::Light);
    const auto lanes = trailLanes(values);
    std::vector<double> widths;
    for (std::size_t i = 0; i < values.marks.size(); ++i)
        widths.push_back(trailTextWidth(values.marks[i], lanes[i] > 0, look));
    return fittedTrail(values, widths, view, {}, look);
}

} // namespace

TEST_CASE("No branch bends over another mark and none is cut in a small window", "[plots]") {
    for (const QSizeF view : {QSizeF(756, 40), QSizeF(972, 40), QSizeF(1040, 168), QSizeF(1300, 200)}) {
        const auto geometry = geometryOf(forked(), view);
        CAPTURE(view.width(), view.height());
        for (const auto& item : geometry.items) {
            CHECK(geometry.laneY(item.lane) - 6 >= 0);
            CHECK(geometry.laneY(item.lane) + 6 <= view.height());
        }
        if (geometry.flat) continue;
        for (const auto& link : geometry.links) {
            const auto& from = geometry.items[static_cast<std::size_t>(link.from)];
            const auto& to = geometry.items[static_cast<std::size_t>(link.to)];
            for (const auto& between : geometry.items)
                if (between.lane > from.lane && between.lane < to.lane && between.x > from.x)
                    CHECK(between.x > from.x + kTrailBend + 6);
        }
    }
}

TEST_CASE("Words of the trail are whole where there is room for them", "[plots]") {
    const auto values = forked();
    const auto look = Look::of(Mode::Light);
    const auto narrow = geometryOf(values, QSizeF(1040, 168));
    const auto wide = geometryOf(values, QSizeF(2600, 200));
    CHECK(wide.wordLines == 2);
    for (const auto& item : wide.items) {
        const auto& mark = values.marks[static_cast<std::size_t>(item.first)];
        const double room = item.textWidth + look.px(8);
        if (item.lane == 0)
            for (const auto& text : {mark.changed, mark.did})
                for (const auto& line :
                     wholePartLines(text, text == mark.did ? u", "_s : u"; "_s, Type::Unit, look, room, 2))
                    CHECK_FALSE(line.contains(u" more"_s));
    }
    CHECK(wide.width <= 2600);
    CHECK(narrow.items.front().textWidth <= wide.items.front().textWidth);
}
