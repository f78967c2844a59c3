#include "tests/support/catch.h"

#include "core/physics/glass_profile.h"
#include "ui/plots/balance_geometry.h"
#include "ui/plots/glass_drawing.h"
#include "ui/plots/plot_text.h"
#include "ui/plots/stage_columns.h"
#include "ui/plots/trail_geometry.h"
#include "ui/theme/theme.h"

#include <cmath>

using namespace stillroom;
using namespace stillroom::ui;
using namespace Qt::Literals::StringLiterals;

namespace {

// A cylinder of 40 mm radius and 100 mm height: 502.65 ml, 5.0265 ml a millimetre.
physics::GlassProfile cylinder() {
    physics::GlassProfile profile;
    profile.name = "test cylinder";
    profile.points = {{0, 40}, {100, 40}};
    return profile;
}

struct Ml {
    const char16_t* name;
    double ml;
    spec::GlassLayerKind kind = spec::GlassLayerKind::Drink;
};

// Layers as water, in a glass.
GlassValues standing(const std::vector<Ml>& of, const physics::GlassProfile* glass, double headMl = 0,
                     std::optional<physics::IceInGlass> ice = {}) {
    std::vector<spec::GlassLayer> layers;
    GlassValues values;
    for (const auto& each : of) {
        spec::GlassLayer layer;
        layer.kind = each.kind;
        layer.volumeMl = layer.standsMl = each.ml;
        layer.densityKgPerM3 = layer.lowKgPerM3 = layer.highKgPerM3 = 990;
        layers.push_back(layer);
        values.layerNames.push_back(QString::fromUtf16(each.name));
    }
    std::vector<spec::GlassHead> heads;
    if (headMl > 0) {
        heads.emplace_back();
        heads.back().volumeMl = headMl;
    }
    values.filling = spec::stand(std::move(layers), std::move(heads), ice, glass);
    return values;
}

const QSizeF kRoom(262, 310);

TrailMark mark(const QString& number, int parent, StateMark state = StateMark::Kept) {
    TrailMark of;
    of.number = number;
    of.parent = parent;
    of.state = state;
    of.changed = u"something changed"_s;
    return of;
}

TrailGeometry laidOut(const TrailValues& values, QSizeF view, const std::set<int>& expanded = {}) {
    const auto look = Look::of(Mode::Light);
    const auto lanes = trailLanes(values);
    std::vector<double> widths;
    for (std::size_t i = 0; i < values.marks.size(); ++i)
        widths.push_back(trailTextWidth(values.marks[i], lanes[i] > 0, look));
    return trailGeometry(values, widths, view, expanded, look);
}

TrailValues straight(int count) {
    TrailValues values;
    for (int i = 0; i < count; ++i)
        values.marks.push_back(mark(u"r%1"_s.arg(i + 1), i - 1));
    return values;
}

} // namespace

TEST_CASE("A glass is drawn to the scale it prints", "[plots]") {
    const auto look = Look::of(Mode::Light);
    const auto glass = cylinder();
    const auto values = standing({{u"mixed", 250}}, &glass);
    const auto geometry = glassGeometry(values, kRoom, look);
    // 96 px to the inch: at 1 : n a millimetre is 96 / 25.4 / n px.
    CHECK(geometry.pxPerMm == Approx(96.0 / 25.4 / geometry.denominator));
    CHECK(geometry.floorY - geometry.y(100) == Approx(100 * geometry.pxPerMm));
    CHECK(geometry.bands.front().path.boundingRect().width() == Approx(80 * geometry.pxPerMm).margin(0.01));
    CHECK(geometry.glassBox.right() <= kRoom.width());
    CHECK(geometry.glassBox.top() >= 0);
    // 250 ml stand 250 / (pi 40^2 / 1000) = 49.74 mm high.
    CHECK(geometry.floorY - geometry.bands.front().path.boundingRect().top() ==
          Approx(49.736 * geometry.pxPerMm).margin(0.02));
    CHECK(glassFact(values, geometry).contains(u"50"_s));
    CHECK(glassConsequence(values, geometry).contains(u"50"_s)); // 50.26 mm, whole millimetres below
}

TEST_CASE("The ruler follows true volume where the glass widens", "[plots]") {
    physics::GlassProfile cone;
    cone.points = {{0, 1}, {100, 50}};
    const auto values = standing({}, &cone);
    const auto geometry = glassGeometry(values, kRoom, Look::of(Mode::Light));
    REQUIRE(geometry.ticks.size() >= 4);
    for (std::size_t i = 2; i < geometry.ticks.size(); ++i) {
        const double below = geometry.ticks[i - 2].y - geometry.ticks[i - 1].y;
        const double above = geometry.ticks[i - 1].y - geometry.ticks[i].y;
        CHECK(above < below); // the same millilitres take less height where it is wider
    }
    for (const auto& tick : geometry.ticks) {
        const double height = (geometry.floorY - tick.y) / geometry.pxPerMm;
        CHECK(cone.volumeTo(height).ml() == Approx(tick.ml).margin(0.05));
    }
}

TEST_CASE("Layers are drawn on each other with the head above them", "[plots]") {
    const auto glass = cylinder();
    const auto values =
        standing({{u"mixed", 150}, {u"red wine", 10, spec::GlassLayerKind::Float}}, &glass, 50);
    const auto geometry = glassGeometry(values, kRoom, Look::of(Mode::Light));
    REQUIRE(geometry.bands.size() == 2);
    const auto lower = geometry.bands[0].path.boundingRect();
    const auto upper = geometry.bands[1].path.boundingRect();
    CHECK(upper.bottom() == Approx(lower.top()));
    CHECK(upper.height() == Approx(10 / 5.0265 * geometry.pxPerMm).margin(0.01));
    REQUIRE(geometry.heads.size() == 1);
    const auto head = geometry.heads[0].path.boundingRect();
    CHECK(head.bottom() == Approx(upper.top()));
    CHECK(head.height() == Approx(50 / 5.0265 * geometry.pxPerMm).margin(0.01));
}

TEST_CASE("The wash line is drawn between 85 and 90 % of the brim", "[plots]") {
    const auto glass = cylinder();
    auto known = standing({{u"mixed", 430}}, &glass);
    known.filling.wash = spec::WashLine::Within;
    const auto geometry = glassGeometry(known, kRoom, Look::of(Mode::Light));
    const auto band = geometry.washBand.boundingRect();
    CHECK(band.bottom() == Approx(geometry.y(85)).margin(0.01));
    CHECK(band.top() == Approx(geometry.y(90)).margin(0.01));
    const auto unknown = standing({{u"mixed", 430}}, nullptr);
    CHECK(glassGeometry(unknown, kRoom, Look::of(Mode::Light)).washBand.isEmpty());
}

TEST_CASE("Ice is drawn where it floats", "[plots]") {
    const auto glass = cylinder();
    const physics::IceInGlass cube{64 * 0.917, 40, 1, false};
    const auto values = standing({{u"mixed", 200}}, &glass, 0, cube);
    const auto geometry = glassGeometry(values, kRoom, Look::of(Mode::Light));
    REQUIRE(geometry.ice.size() == 1);
    CHECK(geometry.ice[0].width() == Approx(40 * geometry.pxPerMm));
    CHECK(geometry.ice[0].top() < geometry.y(values.filling.fillMm)); // it looks out
    const auto little = standing({{u"mixed", 60}}, &glass, 0, cube);
    const auto shallow = glassGeometry(little, kRoom, Look::of(Mode::Light));
    CHECK(shallow.ice[0].bottom() == Approx(shallow.floorY));
}

TEST_CASE("More than the brim holds is said in words", "[plots]") {
    const auto glass = cylinder();
    const auto values = standing({{u"mixed", 520}}, &glass);
    const auto geometry = glassGeometry(values, kRoom, Look::of(Mode::Light));
    CHECK(values.filling.overMl == Approx(520 - 502.655).margin(0.01));
    CHECK(glassFact(values, geometry).contains(u"more than it holds"_s));
}

TEST_CASE("A glass nobody knows is a plain cylinder that holds it all and promises no share", "[plots]") {
    const auto values = standing({{u"mixed", 400}}, nullptr);
    const auto geometry = glassGeometry(values, kRoom, Look::of(Mode::Light));
    CHECK(values.filling.overMl == 0);
    CHECK(glassFact(values, geometry).contains(u"not known"_s));
    CHECK_FALSE(glassConsequence(values, geometry).contains(u"spare"_s));
}

TEST_CASE("Every glass of the handbook fits its room and keeps its words apart", "[plots]") {
    for (const double zoom : {1.0, 2.0}) {
        const auto look = Look::of(Mode::Light, zoom);
        for (const auto& profile : physics::glassProfiles()) {
            INFO(profile.id);
            const auto values = standing({{u"mixed", profile.brim().ml() * 0.6}}, &profile);
            const QSizeF room = kRoom * zoom;
            const auto geometry = glassGeometry(values, room, look);
            CHECK(geometry.glassBox.left() >= 0);
            CHECK(geometry.glassBox.right() <= room.width());
            CHECK(geometry.glassBox.bottom() <= room.height());
            CHECK(geometry.ticks.size() >= 3);
        }
    }
}

TEST_CASE("The drawing names the layer under the pointer with its volume and density", "[plots]") {
    const auto profile = cylinder();
    GlassDrawing glass;
    glass.resize(262, 310);
    glass.setValues(standing({{u"mixed", 250}, {u"red wine", 100, spec::GlassLayerKind::Float}}, &profile));
    const auto geometry = glassGeometry(glass.values(), glass.size(), Theme::current().look());
    const auto at = [&](double mm) { return glass.wordsAt({geometry.axisX, geometry.y(mm)}); };
    CHECK(at(10).contains(u"mixed: 250"_s));
    CHECK(at(55).contains(u"red wine: 100"_s));
    CHECK(at(55).contains(u"990"_s));
    CHECK(at(90).isEmpty());
    CHECK(glass.words().contains(u"red wine: 100"_s));
}

TEST_CASE("An axis holds its values in whole steps and does not go below nothing", "[plots]") {
    const auto axis = axisAround({5.0, 8.9, 7.2}, 4, 5);
    CHECK(axis.low <= 5.0);
    CHECK(axis.high >= 8.9);
    CHECK(std::fmod(axis.high - axis.low, axis.step) == Approx(0).margin(1e-9));
    CHECK(axisAround({0.1}, 4, 5).low >= 0);
    CHECK(axisAround({}, 4, 5).high >= 4);
    CHECK(axisAround({7, 7}, 4, 5).high > axisAround({7, 7}, 4, 5).low);
}

TEST_CASE("A point stands where its sugar and acid say and rays are of equal ratio", "[plots]") {
    BalanceValues values;
    balance::StyleRegion region;
    region.name = "shaken sours";
    region.sugar = {5.0, 8.9, true};
    region.acid = {0.76, 0.94, true};
    region.strength = {15, 19.7, true};
    values.region = region;
    MapPoint now;
    now.label = u"draft"_s;
    now.sugar = 7.2;
    now.acid = 0.73;
    values.now = now;
    const auto geometry = balanceGeometry(values, QSizeF(350, 300), Look::of(Mode::Light));
    const auto at = geometry.at(now);
    CHECK(geometry.field.contains(at));
    CHECK(geometry.sugar.low + (at.x() - geometry.field.left()) / geometry.field.width() *
                                   (geometry.sugar.high - geometry.sugar.low) ==
          Approx(7.2));
    CHECK(at.y() > geometry.regionBox.bottom()); // softer than the style: below its field
    CHECK(at.x() > geometry.regionBox.left());
    CHECK(at.x() < geometry.regionBox.right());
    REQUIRE(geometry.rays.size() >= 2);
    for (const auto& ray : geometry.rays)
        for (const auto& end : {ray.line.p1(), ray.line.p2()}) {
            const double sugar = geometry.sugar.low + (end.x() - geometry.field.left()) /
                                                          geometry.field.width() *
                                                          (geometry.sugar.high - geometry.sugar.low);
            const double acid = geometry.acid.low + (geometry.field.bottom() - end.y()) /
                                                        geometry.field.height() *
                                                        (geometry.acid.high - geometry.acid.low);
            CHECK(sugar == Approx(acid * ray.ratio).margin(1e-6));
        }
}

TEST_CASE("A range its source leaves open reaches across the map", "[plots]") {
    BalanceValues values;
    balance::StyleRegion region;
    region.sugar = {7.6, 7.6, true};
    region.acid = {0, 0, false};
    region.strength = {27, 32, true};
    values.region = region;
    const auto geometry = balanceGeometry(values, QSizeF(350, 300), Look::of(Mode::Light));
    CHECK(geometry.regionBox.top() == Approx(geometry.field.top()));
    CHECK(geometry.regionBox.bottom() == Approx(geometry.field.bottom()));
}

TEST_CASE("Stage columns share one scale and their parts are volumes", "[plots]") {
    StageColumnsValues values;
    values.columns = {{u"measured"_s, 100.0, 25, 10, false, false},
                      {u"served"_s, 150.0, 25, 10, false, true},
                      {u"held"_s, std::nullopt, 0, 0, false, false}};
    const auto boxes = stageColumnGeometry(values, QSizeF(300, 64), Look::of(Mode::Light));
    REQUIRE(boxes.size() == 3);
    CHECK(boxes[1].outline.height() == Approx(boxes[0].outline.height() * 1.5));
    CHECK(boxes[0].alcohol.height() == Approx(boxes[1].alcohol.height()));
    CHECK(boxes[0].alcohol.height() == Approx(boxes[0].outline.height() * 0.25));
    CHECK(boxes[0].sugar.bottom() == Approx(boxes[0].alcohol.top()));
    CHECK(boxes[0].outline.bottom() == Approx(boxes[1].outline.bottom()));
}

TEST_CASE("The house and its way stay on the base line and branches leave upward", "[plots]") {
    TrailValues values;
    values.marks = {mark(u"r1"_s, -1), mark(u"r2"_s, 0), mark(u"r3"_s, 1, StateMark::SetAside),
                    mark(u"r4"_s, 1, StateMark::House), mark(u"draft"_s, 3, StateMark::Draft)};
    CHECK(trailLanes(values) == std::vector<int>{0, 0, 1, 0, 0});
    const auto geometry = laidOut(values, QSizeF(1200, 168));
    CHECK(geometry.laneY(1) < geometry.laneY(0));
    for (std::size_t i = 1; i < geometry.items.size(); ++i)
        CHECK(geometry.items[i].x > geometry.items[i - 1].x); // left to right in time
    REQUIRE(geometry.links.size() == 4);
    CHECK(geometry.links.back().dashed);
    CHECK_FALSE(geometry.links.front().dashed);
}

TEST_CASE("Two branches at one time take two lanes", "[plots]") {
    TrailValues values;
    values.marks = {mark(u"r1"_s, -1), mark(u"a1"_s, 0), mark(u"b1"_s, 0), mark(u"a2"_s, 1),
                    mark(u"r2"_s, 0, StateMark::House)};
    const auto lanes = trailLanes(values);
    CHECK(lanes[1] == 1);
    CHECK(lanes[3] == 1); // goes on where it began
    CHECK(lanes[2] == 2);
    CHECK(lanes[4] == 0);
}

TEST_CASE("Words on the trail never lie over each other", "[plots]") {
    const auto geometry = laidOut(straight(8), QSizeF(4000, 168));
    REQUIRE(geometry.items.size() == 8);
    for (std::size_t i = 1; i < geometry.items.size(); ++i)
        CHECK(geometry.items[i].x >= geometry.items[i - 1].x + geometry.items[i - 1].textWidth);
}

TEST_CASE("A long trail folds its plain runs and unfolds the one asked for", "[plots]") {
    auto values = straight(500);
    values.marks[250].state = StateMark::House;
    const auto folded = laidOut(values, QSizeF(840, 168));
    CHECK(folded.items.size() == 8); // the first, a run, the house, a run, the newest four
    CHECK(folded.items[1].isFold());
    CHECK(folded.items[1].count() == 249);
    CHECK(folded.itemOf[100] == 1);
    CHECK(folded.items[2].first == 250);
    const auto open = laidOut(values, QSizeF(840, 168), {1});
    CHECK(open.items.size() == 256);
    CHECK(laidOut(straight(4), QSizeF(2000, 168)).items.size() == 4); // what fits does not fold
}

TEST_CASE("Steps of an axis are round", "[plots]") {
    CHECK(niceStep(10, 5) == Approx(2));
    CHECK(niceStep(0.4, 4) == Approx(0.1));
    CHECK(niceStep(23, 10) == Approx(2.5));
    CHECK(decimalsOfStep(2.5) == 1);
    CHECK(decimalsOfStep(0.05) == 2);
    CHECK(decimalsOfStep(10) == 0);
}
