#include "ui/render/render_view.h"

#include "core/larder/fact_entry.h"
#include "ui/main_window.h"
#include "ui/panels/bench.h"
#include "ui/panels/blind/blind_page.h"
#include "ui/panels/conversions_desk.h"
#include "ui/panels/drawing_values.h"
#include "ui/panels/gauges_panel.h"
#include "ui/panels/larder/ingredient_sheet.h"
#include "ui/panels/larder/larder_page.h"
#include "ui/panels/measuring/measuring_page.h"
#include "ui/panels/measuring/target_page.h"
#include "ui/panels/search/search_page.h"
#include "ui/panels/search/search_reading.h"
#include "ui/panels/sheet_panel.h"
#include "ui/panels/side_by_side/load.h"
#include "ui/panels/side_by_side/side_by_side_page.h"
#include "ui/panels/stand_in/stand_in_dialog.h"
#include "ui/panels/stock/stock_page.h"
#include "ui/panels/stock/stock_table.h"
#include "ui/panels/stock/wish_model.h"
#include "ui/panels/tasting/tasting_page.h"
#include "ui/plots/balance_map.h"
#include "ui/plots/glass_drawing.h"
#include "ui/plots/trail.h"
#include "ui/session/larder_edit.h"
#include "ui/text/border.h"
#include "ui/theme/banner.h"
#include "ui/theme/theme.h"
#include "ui/widgets/spec_table.h"

#include <QAction>
#include <QApplication>
#include <QEventLoop>
#include <QLineEdit>
#include <QPainter>
#include <QTimer>

#include <algorithm>
#include <cmath>
#include <map>

namespace stillroom::ui {

using namespace Qt::Literals::StringLiterals;

namespace {

// What the theme was, to put back: a picture leaves no trace on the window beside it.
class ThemeHeld {
  public:
    explicit ThemeHeld(bool dark)
        : m_choice(Theme::current().choice()),
          m_zoom(Theme::current().zoomPercent()) {
        auto& theme = Theme::current();
        theme.install();
        theme.setZoomPercent(Theme::kLeastZoom);
        theme.setChoice(dark ? Theme::Choice::Dark : Theme::Choice::Light);
    }
    ~ThemeHeld() {
        Theme::current().setChoice(m_choice);
        Theme::current().setZoomPercent(m_zoom);
    }
    ThemeHeld(const ThemeHeld&) = delete;
    ThemeHeld& operator=(const ThemeHeld&) = delete;

  private:
    Theme::Choice m_choice;
    int m_zoom;
};

QSize usualSize(const QString& view) {
    static const std::map<QString, QSize> sizes = {{u"trail"_s, {1180, 176}},
                                                   {u"glass"_s, {320, 360}},
                                                   {u"balance"_s, {400, 360}},
                                                   {u"stand-in"_s, {760, 480}}};
    const auto found = sizes.find(view);
    return found == sizes.end() ? QSize(1440, 900) : found->second;
}

QImage blank(QSize size, double scale) {
    QImage image(QSize(static_cast<int>(std::lround(size.width() * scale)),
                       static_cast<int>(std::lround(size.height() * scale))),
                 QImage::Format_ARGB32_Premultiplied);
    image.setDevicePixelRatio(scale);
    image.fill(Theme::current().color(Token::Page));
    return image;
}

QImage grabbed(QWidget& widget, QSize size, double scale) {
    widget.resize(size);
    widget.show();
    // Layouts settle in the event loop; nothing else is waited for.
    for (int i = 0; i < 3; ++i)
        QApplication::processEvents(QEventLoop::ExcludeUserInputEvents);
    auto image = blank(size, scale);
    widget.render(&image);
    return image;
}

// The larder with the ingredient of that name in hand, else the first of the drink.
QImage larderPicture(MainWindow& window, const QString& name, QSize size, double scale) {
    window.actions().at(Act::Larder)->trigger();
    auto& edit = window.desk().book()->larderEdit();
    const auto match = window.desk().book()->larder().match(toCore(name));
    if (match.quality == larder::MatchQuality::Exact)
        edit.choose(match.ingredient);
    else if (window.desk().draft() != nullptr)
        for (const auto& line : window.desk().draft()->spec().lines)
            if (line.ingredient) {
                edit.choose(*line.ingredient);
                break;
            }
    // Where it is used is found on another thread; the picture waits for it, a second at most.
    QEventLoop loop;
    QTimer::singleShot(1000, &loop, &QEventLoop::quit);
    QObject::connect(&edit, &LarderEdit::impactChanged, &loop, [&] {
        if (edit.uses()) loop.quit();
    });
    if (edit.hasChosen() && !edit.uses()) loop.exec();
    return grabbed(window, size, scale);
}

// A third stronger and sweeter than it was, before anybody accepts it.
QImage larderEditPicture(MainWindow& window, const QString& name, QSize size, double scale) {
    window.resize(size);
    larderPicture(window, name, size, scale);
    auto& edit = window.desk().book()->larderEdit();
    if (!edit.hasChosen()) return grabbed(window, size, scale);
    auto next = edit.now();
    for (auto* fact : {&next.facts.abvPercent, &next.facts.sugarGPerL})
        if (*fact) **fact = larder::withValue(*fact, (*fact)->typical * 4 / 3, edit.today());
    QEventLoop loop;
    QTimer::singleShot(1000, &loop, &QEventLoop::quit);
    QObject::connect(&edit, &LarderEdit::impactChanged, &loop, [&] {
        if (edit.impact()) loop.quit();
    });
    if (auto* page = qobject_cast<LarderPage*>(window.page())) page->sheet().focusFirst();
    edit.set(std::move(next));
    if (edit.isPending() && !edit.impact()) loop.exec();
    return grabbed(window, size, scale);
}

// A weighing of what the drink's second line names, half filled in as a person would.
QImage measuringPicture(MainWindow& window, QSize size, double scale) {
    window.actions().at(Act::FindFact)->trigger();
    auto* page = qobject_cast<MeasuringPage*>(window.page());
    if (page != nullptr) {
        const auto& lines = window.desk().draft()->spec().lines;
        if (lines.size() > 1) page->chooseIngredient(lines[1].ingredient);
        page->form().fill({{"volume", "50"}, {"net", "53,4"}, {"abv", "24"}});
        page->refresh();
    }
    return grabbed(window, size, scale);
}

// Of a preparation its Brix; else orange juice with the acid of lime juice.
QImage targetPicture(MainWindow& window, QSize size, double scale) {
    window.actions().at(Act::BringToTarget)->trigger();
    if (auto* page = qobject_cast<TargetPage*>(window.page())) {
        if (window.desk().draft()->drink().form == history::DrinkForm::Preparation) {
            page->chooseTarget("brix");
            page->form().fill({{"brix", "60"}});
        }
    }
    return grabbed(window, size, scale);
}

// The newest session, or the newest one of a state.
tl::expected<QImage, QString> panelPicture(MainWindow& window, const RenderRequest& request, QSize size) {
    window.actions().at(Act::Panels)->trigger();
    auto* page = qobject_cast<BlindPage*>(window.page());
    if (page == nullptr) return tl::unexpected(u"The sessions cannot be read."_s);
    static const std::map<QString, tasting::PanelState> states = {
        {u"panel-planned"_s, tasting::PanelState::Designed},
        {u"panel-pouring"_s, tasting::PanelState::Pouring},
        {u"panel-closed"_s, tasting::PanelState::Closed}};
    if (request.view == u"panel-new") page->showForm();
    const auto state = states.find(request.view);
    if (state != states.end() || (request.view == u"panel" && !request.words.isEmpty())) {
        const auto sessions = window.desk().book()->book().panels();
        const auto found = std::find_if(sessions.begin(), sessions.end(), [&](const auto& each) {
            return (state == states.end() || each.state == state->second) && !each.binned &&
                   fromCore(each.name).contains(request.words, Qt::CaseInsensitive);
        });
        if (found == sessions.end()) return tl::unexpected(u"The book has no such session."_s);
        page->showSession(found->id);
    }
    return grabbed(window, size, request.scale);
}

// The dialog for the first line that anything stands in for.
tl::expected<QImage, QString> standInPicture(MainWindow& window, QSize size, double scale) {
    auto& table = window.bench().sheet().table();
    window.resize(1440, 900);
    window.show();
    const auto& spec = window.desk().draft()->spec();
    const auto& book = *window.desk().book();
    std::size_t chosen = 0;
    for (std::size_t line = spec.lines.size(); line-- > 0;)
        if (!preparation::standInsFor(spec, line, book.larder(), book.houseRules()).empty()) chosen = line;
    table.setCurrentIndex(table.model()->index(static_cast<int>(chosen), 0));
    window.actions().at(Act::StandIn)->trigger();
    if (auto* dialog = window.findChild<StandInDialog*>()) return grabbed(*dialog, size, scale);
    return tl::unexpected(u"This drink has no line that anything could stand in for."_s);
}

std::optional<base::DrinkId> drinkNamed(const WorkbookSession& book, const QString& name) {
    // Without a name the first drink of the shelf; what is made for drinks stands apart there.
    std::optional<base::DrinkId> first;
    for (const auto& summary : book.shelf()) {
        if (summary.binned) continue;
        if (!name.isEmpty() && fromCore(summary.name).compare(name, Qt::CaseInsensitive) == 0)
            return summary.id;
        if (name.isEmpty() && summary.form == history::DrinkForm::Drink) return summary.id;
        if (name.isEmpty() && !first) first = summary.id;
    }
    return first;
}

// Draws one of the drawings alone, through the routine that paper uses too.
QImage drawingOf(const RenderRequest& request, const DrinkHistory& history, DraftSession& draft, QSize size) {
    auto image = blank(size, request.scale);
    QPainter painter(&image);
    const QRectF box(QPointF(0, 0), QSizeF(size));
    const auto& look = Theme::current().look();
    const auto& now = draft.now();
    if (request.view == u"glass") {
        paintGlass(painter, box, glassValues(now.spec, now.filling), look);
    } else if (request.view == u"balance") {
        paintBalance(painter, box, balanceValues(u"draft"_s, now.spec, now.readings, history.revisions()),
                     look);
    } else {
        auto trail = trailOf(history);
        trail.marks.push_back(draftMark(history, draft));
        paintWholeTrail(painter, box, trail, look);
    }
    return image;
}

} // namespace

QStringList renderViews() {
    return {u"bench"_s,        u"working"_s,        u"held"_s,          u"more"_s,         u"desk"_s,
            u"side-by-side"_s, u"side-by-side-4"_s, u"tasting"_s,       u"asks"_s,         u"trail"_s,
            u"glass"_s,        u"balance"_s,        u"larder"_s,        u"larder-edit"_s,  u"what-to-buy"_s,
            u"find-fact"_s,    u"target"_s,         u"stand-in"_s,      u"search"_s,       u"panel"_s,
            u"panel-new"_s,    u"panel-planned"_s,  u"panel-pouring"_s, u"panel-closed"_s, u"bin"_s};
}

tl::expected<QImage, QString> renderView(const RenderRequest& request) {
    if (!renderViews().contains(request.view))
        return tl::unexpected(
            u"There is no view “%1”; there are %2."_s.arg(request.view, renderViews().join(u", "_s)));
    if (!(request.scale > 0) || request.scale > 8)
        return tl::unexpected(u"The scale must lie above 0 and not above 8."_s);
    const ThemeHeld theme(request.dark);
    const QSize size = request.size.isEmpty() ? usualSize(request.view) : request.size;

    MainWindow window;
    auto& desk = window.desk();
    QString failure;
    QObject::connect(&desk, &Desk::failed, &window, [&](const Sentence& sentence) {
        failure = QString(sentence.fact + u' ' + sentence.consequence).trimmed();
    });
    if (!desk.openBook(request.workbook, store::OpenMode::ReadOnly)) return tl::unexpected(failure);
    auto drink = drinkNamed(*desk.book(), request.drink);
    if (!drink && request.view.startsWith(u"larder"))
        drink = drinkNamed(*desk.book(), {});  // named as an ingredient
    if (!drink && request.view == u"larder") { // a book of bottles alone, or of nothing yet
        window.banner().show(BannerKind::Caution, {});
        return larderPicture(window, request.drink, size, request.scale);
    }
    if (!drink)
        return tl::unexpected(request.drink.isEmpty() ? u"The book has no drink yet."_s
                                                      : u"The book has no drink “%1”."_s.arg(request.drink));
    if (!desk.openDrink(*drink) || !desk.draft()) return tl::unexpected(failure);
    window.banner().show(BannerKind::Caution, {}); // that the book is read-only is no part of the picture
    auto& book = desk.book()->book();
    const auto now = desk.book()->clock().now();

    if (request.view == u"working") window.bench().gauges().showWorking();
    if (request.view == u"held") window.bench().gauges().showHeld();
    if (request.view == u"more") window.bench().gauges().showMore();
    if (request.view == u"more" || request.view == u"bench" || request.view == u"working" ||
        request.view == u"held")
        return grabbed(window, size, request.scale);
    if (request.view == u"desk") {
        auto* page = new ConversionsDesk;
        window.showPage(page);
        return grabbed(window, size, request.scale);
    }
    if (request.view == u"what-to-buy") {
        window.actions().at(Act::WhatToBuy)->trigger();
        if (auto* page = qobject_cast<StockPage*>(window.page()))
            for (const int row : {0, 1}) // so that the list has something to show
                page->wishes().model()->setData(page->wishes().model()->index(row, WishModel::Serves), 40);
        return grabbed(window, size, request.scale);
    }
    if (request.view == u"find-fact") return measuringPicture(window, size, request.scale);
    if (request.view == u"bin") {
        window.actions().at(Act::Bin)->trigger();
        return grabbed(window, size, request.scale);
    }
    if (request.view == u"search") {
        // What search reads ahead is read first, ten seconds at most.
        if (auto* reading = window.findChild<SearchReading*>(); reading && !reading->isDone()) {
            QEventLoop loop;
            QTimer::singleShot(10000, &loop, &QEventLoop::quit);
            QObject::connect(reading, &SearchReading::done, &loop, &QEventLoop::quit);
            loop.exec();
        }
        window.actions().at(Act::Search)->trigger();
        if (auto* page = qobject_cast<SearchPage*>(window.page())) page->words().setText(request.words);
        return grabbed(window, size, request.scale);
    }
    if (request.view == u"asks") {
        window.actions().at(Act::Asks)->trigger();
        return grabbed(window, size, request.scale);
    }
    if (request.view == u"larder") return larderPicture(window, request.drink, size, request.scale);
    if (request.view == u"larder-edit") return larderEditPicture(window, request.drink, size, request.scale);
    if (request.view == u"stand-in") return standInPicture(window, size, request.scale);
    if (request.view == u"target") return targetPicture(window, size, request.scale);
    if (request.view.startsWith(u"panel")) return panelPicture(window, request, size);
    if (request.view == u"side-by-side" || request.view == u"side-by-side-4") {
        auto columns = usualColumns(book, *drink);
        if (request.view == u"side-by-side-4")
            for (const auto& further : furtherColumns(book, *drink, columns, now))
                if (columns.size() < kMostSideColumns && !further.drink && !further.ref.today)
                    columns.push_back(further.ref);
        if (columns.size() < 2)
            return tl::unexpected(u"There is one version of this drink: nothing to set beside it."_s);
        auto* page = new SideBySidePage;
        page->setValues(loadSideBySide(book, *drink, columns, now));
        window.showPage(page);
        return grabbed(window, size, request.scale);
    }
    DrinkHistory history;
    history.setDraft(desk.draft());
    if (request.view == u"tasting") {
        if (history.revisions().empty())
            return tl::unexpected(u"Nothing of this drink is kept yet: keep it, then taste it."_s);
        // The revision in hand: what the draft stands on, else the newest.
        const auto& base = desk.draft()->base();
        const auto sheet = loadTastingSheet(book, base ? base->id : history.revisions().back().id, now);
        if (!sheet) return tl::unexpected(u"The newest revision cannot be read."_s);
        auto* page = new TastingPage;
        page->setSheet(*sheet);
        window.showPage(page);
        return grabbed(window, size, request.scale);
    }
    return drawingOf(request, history, *desk.draft(), size);
}

} // namespace stillroom::ui
