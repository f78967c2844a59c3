#include "tests/support/catch.h"

#include "core/larder/handbook.h"
#include "core/larder/larder.h"
#include "core/spec/glass_filling.h"
#include "ui/panels/drawing_values.h"
#include "ui/plots/glass_drawing.h"
#include "ui/theme/theme.h"

#include <QDir>
#include <QImage>
#include <QPainter>

using namespace stillroom;
using namespace stillroom::ui;
using namespace Qt::Literals::StringLiterals;

namespace {

spec::Line poured(const char* kind, std::int64_t ml, spec::Role role = spec::Role::Mixed,
                  const char* note = "") {
    const auto* ingredient = larder::Handbook::builtIn().find(kind);
    INFO(kind);
    REQUIRE(ingredient != nullptr);
    spec::Line line;
    line.name = ingredient->name;
    line.ingredient = ingredient->id;
    line.poured = {quantity::Amount::exact(ml), quantity::Measure::Ml, 1};
    line.role = role;
    line.note = note;
    return line;
}

struct Scene {
    QString name;
    spec::Spec spec;
};

spec::Spec made(std::vector<spec::Line> lines, spec::Technique technique, const char* glass,
                const char* method = "") {
    spec::Spec spec;
    spec.lines = std::move(lines);
    spec.method.technique = technique;
    spec.method.text = method;
    spec.glass = glass;
    return spec;
}

std::vector<Scene> scenes() {
    using spec::Role;
    using spec::Technique;
    auto hot = made({poured("whiskey_irish", 40), poured("coffee_brewed", 120), poured("simple_1_1_mass", 10),
                     poured("cream_whipped", 30, Role::Floated)},
                    Technique::Hot, "heatproof mug", "Build hot, float the cream.");
    hot.lines[1].temperatureC = 85;
    return {
        {u"layers"_s, made({poured("coffee_liqueur", 12), poured("triple_sec", 12), poured("gin_london", 12)},
                           Technique::None, "shot glass", "Layer in order over the back of a spoon.")},
        {u"cream"_s, hot},
        {u"sour"_s, made({poured("gin_london", 50), poured("lemon_juice", 25), poured("simple_1_1_mass", 20),
                          poured("egg_white", 25)},
                         Technique::Shake, "coupe")},
        {u"tall"_s, made({poured("gin_london", 45), poured("lemon_juice", 20), poured("simple_1_1_mass", 15),
                          poured("soda_water", 90, Role::Topped)},
                         Technique::Shake, "highball, over three 32 mm cubes")},
        {u"over"_s,
         made({poured("gin_london", 120), poured("simple_1_1_mass", 60)}, Technique::Stir, "coupe")},
        {u"unknown"_s,
         made({poured("gin_london", 60), poured("lemon_juice", 25)}, Technique::Shake, "an old jam jar")},
        {u"sinks"_s, made({poured("gin_london", 60), poured("lemon_juice", 25), poured("simple_1_1_mass", 15),
                           poured("coffee_liqueur", 15, Role::Floated)},
                          Technique::Shake, "low tumbler, over one 45 mm cube")},
    };
}

GlassValues valuesOf(const spec::Spec& spec) {
    const larder::Larder larder;
    const spec::Bindings bindings(spec, larder, {});
    return glassValues(spec, spec::glassFilling(spec, bindings));
}

QImage drawn(const GlassValues& values, const Look& look) {
    const QSize size(look.pxInt(262), look.pxInt(310));
    QImage image(size, QImage::Format_ARGB32_Premultiplied);
    image.fill(look.color(Token::Page));
    QPainter painter(&image);
    paintGlass(painter, QRectF(QPointF(0, 0), QSizeF(size)), values, look);
    return image;
}

// Set STILLROOM_GLASS_PICTURES to a folder to look at what is drawn.
void keep(const QImage& image, const QString& name) {
    const auto folder = qEnvironmentVariable("STILLROOM_GLASS_PICTURES");
    if (!folder.isEmpty()) image.save(QDir(folder).filePath(name + u".png"_s));
}

// Pixels of the drawing along one row that are not its ground.
int inked(const QImage& image, int y, const QColor& ground) {
    int count = 0;
    for (int x = 0; x < image.width(); ++x)
        count += image.pixelColor(x, y) != ground;
    return count;
}

} // namespace

TEST_CASE("Every way of filling a glass is drawn in light and dark and twice the size", "[plots][glass]") {
    for (const auto& scene : scenes()) {
        INFO(scene.name.toStdString());
        const auto values = valuesOf(scene.spec);
        for (const auto mode : {Mode::Light, Mode::Dark})
            for (const double zoom : {1.0, 2.0}) {
                const auto look = Look::of(mode, zoom);
                const auto image = drawn(values, look);
                keep(image, scene.name + (mode == Mode::Dark ? u"-dark"_s : QString()) +
                                (zoom > 1 ? u"-200"_s : QString()));
                const auto geometry = glassGeometry(values, QSizeF(image.size()), look);
                // Liquid is drawn where the layers are, and the head above it.
                for (const auto& band : geometry.bands)
                    CHECK(inked(image, static_cast<int>(band.path.boundingRect().center().y()),
                                look.color(Token::Page)) > 10);
                for (const auto& head : geometry.heads)
                    CHECK(head.path.boundingRect().top() > look.px(20)); // clear of the words above
                CHECK(geometry.glassBox.right() < image.width());
            }
    }
}

TEST_CASE("What a scene is about is said in words", "[plots][glass]") {
    const auto all = scenes();
    const auto of = [&](int i) { return valuesOf(all[static_cast<std::size_t>(i)].spec); };
    const auto words = [](const GlassValues& values) {
        GlassDrawing drawing;
        drawing.resize(262, 310);
        drawing.setValues(values);
        return drawing.words();
    };
    CHECK(of(0).filling.layers.size() == 3);
    CHECK(words(of(0)).contains(u"coffee liqueur: 12"_s));
    CHECK(words(of(1)).contains(u"cream head"_s));
    CHECK(words(of(2)).contains(u"foam"_s));
    CHECK(words(of(3)).contains(u"Ice of 90"_s));
    CHECK(words(of(4)).contains(u"more than it holds"_s));
    CHECK(words(of(5)).contains(u"not known"_s));
    CHECK(words(of(6)).contains(u"sinks"_s));
}
