#include "tests/support/catch.h"

#include "core/base/clock.h"
#include "core/store/workbook.h"
#include "ui/render/render_view.h"
#include "ui/theme/theme.h"

#include <QCryptographicHash>
#include <QFile>
#include <QTemporaryDir>

using namespace stillroom;
using namespace stillroom::ui;
using namespace Qt::Literals::StringLiterals;

namespace {

// One planned, one pouring, one closed.
void addSessions(store::Workbook& book, const std::vector<base::RevisionId>& products) {
    tasting::PanelDesign design;
    design.products = products;
    design.tasters = {book.addPerson("Ilsa Brannock", "IB")};
    for (const char* name : {"planned", "pouring", "closed"}) {
        const auto id = book.addPanel(name, tasting::designPanel(design).value());
        REQUIRE(id.has_value());
        if (name[0] == 'p' && name[1] == 'l') continue;
        REQUIRE(book.startPouring(*id).has_value());
        if (name[0] == 'c') REQUIRE(book.closePanel(*id).has_value());
    }
}

// A book with one drink, two revisions of it and a changed draft.
QString smallBook(const QTemporaryDir& folder) {
    const auto path = folder.filePath(u"small.stillroom"_s);
    base::FixedClock clock({1'764'000'000'000, 60});
    auto book = store::Workbook::create(path.toStdString(), {}, clock);
    history::Drink drink;
    drink.name = "Quill Point";
    spec::Spec spec;
    spec::Line line;
    line.name = line.written = "lime juice";
    line.poured.measure = quantity::Measure::Ml;
    spec.glass = "coupe";
    const auto pour = [&](int ml) {
        line.poured.amount = quantity::Amount::exact(ml);
        spec.lines = {line};
        return spec;
    };
    const auto draft = book->addDrink(drink, pour(20));
    const auto first = book->keep(draft.id, "first pour");
    REQUIRE(first.has_value());
    book->saveDraft(draft.id, pour(25));
    clock.advanceMs(60'000);
    const auto sharper = book->keep(draft.id, "sharper");
    REQUIRE(sharper.has_value());
    addSessions(*book, {first->id, sharper->id});
    book->saveDraft(draft.id, pour(30));
    book->flush();
    return path;
}

QByteArray digest(const QString& path) {
    QFile file(path);
    REQUIRE(file.open(QIODevice::ReadOnly));
    return QCryptographicHash::hash(file.readAll(), QCryptographicHash::Sha256);
}

} // namespace

TEST_CASE("Every view is drawn at its size in light and dark and the book stays as it was", "[render]") {
    QTemporaryDir folder;
    const auto path = smallBook(folder);
    const auto before = digest(path);
    for (const auto& view : renderViews()) {
        INFO(view.toStdString());
        RenderRequest request;
        request.view = view;
        request.workbook = path;
        request.drink = u"quill point"_s;
        request.size = QSize(900, 600);
        const auto light = renderView(request);
        REQUIRE(light.has_value());
        CHECK(light->size() == QSize(900, 600));
        request.dark = true;
        const auto dark = renderView(request);
        REQUIRE(dark.has_value());
        CHECK(qGray(light->pixel(890, 590)) > qGray(dark->pixel(890, 590)));
        request.scale = 2;
        const auto twice = renderView(request);
        REQUIRE(twice.has_value());
        CHECK(twice->size() == QSize(1800, 1200));
        int inked = 0;
        for (int x = 0; x < light->width(); x += 3)
            for (int y = 0; y < light->height(); y += 3)
                inked += light->pixel(x, y) != light->pixel(890, 590) ? 1 : 0;
        CHECK(inked > 200); // something stands on the page
    }
    CHECK(digest(path) == before);
}

TEST_CASE("What cannot be drawn is said in a sentence", "[render]") {
    QTemporaryDir folder;
    RenderRequest request;
    request.view = u"no such view"_s;
    CHECK(renderView(request).error().contains(u"bench"_s));
    request.view = u"glass"_s;
    request.workbook = folder.filePath(u"nowhere.stillroom"_s);
    CHECK_FALSE(renderView(request).error().isEmpty());
    request.workbook = smallBook(folder);
    request.drink = u"Nobody's"_s;
    CHECK(renderView(request).error().contains(u"Nobody's"_s));
    request.drink.clear();
    request.scale = 0;
    CHECK_FALSE(renderView(request).has_value());
}

TEST_CASE("Without a name the first drink is drawn and not what is made for drinks", "[render]") {
    QTemporaryDir folder;
    const auto path = folder.filePath(u"two.stillroom"_s);
    {
        const base::FixedClock clock({1'764'000'000'000, 60});
        auto book = store::Workbook::create(path.toStdString(), {}, clock);
        history::Drink made;
        made.name = "Amber cordial";
        made.form = history::DrinkForm::Preparation;
        spec::Spec spec;
        spec::Line line;
        line.name = line.written = "sugar";
        line.poured.measure = quantity::Measure::G;
        line.poured.amount = quantity::Amount::exact(100);
        spec.lines = {line};
        book->addDrink(made, spec);
        history::Drink drink;
        drink.name = "Quill Point";
        line.name = line.written = "lime juice";
        line.poured.measure = quantity::Measure::Ml;
        spec.lines = {line};
        book->addDrink(drink, spec);
        book->flush();
    }
    RenderRequest request;
    request.view = u"bench"_s;
    request.workbook = path;
    request.size = QSize(900, 600);
    const auto first = renderView(request);
    REQUIRE(first.has_value());
    request.drink = u"Quill Point"_s;
    CHECK(*first == *renderView(request));
    request.drink = u"Amber cordial"_s;
    CHECK(*first != *renderView(request));
}
