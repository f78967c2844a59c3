#include "core/store/sample_book.h"
#include "tests/support/catch.h"
#include "tests/ui/desktop.h"
#include "ui/panels/blind/blind_page.h"
#include "ui/panels/search/search_page.h"
#include "ui/panels/trail_panel.h"

#include <QAbstractButton>
#include <QKeySequence>
#include <QLabel>
#include <QLineEdit>
#include <QMenu>
#include <QMenuBar>
#include <QTabBar>

#include <functional>
#include <map>

using namespace stillroom;
using namespace stillroom::ui;
using namespace stillroom::ui::test;

namespace {

QString mnemonicOf(const QString& text) {
    return QKeySequence::mnemonic(text).toString();
}

// What of a widget takes a letter with Alt: the words of a button, of a tab, of a label that leads to a
// field.
QStringList lettered(const QWidget& widget) {
    if (const auto* button = qobject_cast<const QAbstractButton*>(&widget)) return {button->text()};
    if (const auto* label = qobject_cast<const QLabel*>(&widget); label && label->buddy())
        return {label->text()};
    QStringList texts;
    if (const auto* tabs = qobject_cast<const QTabBar*>(&widget))
        for (int i = 0; i < tabs->count(); ++i)
            texts << tabs->tabText(i);
    return texts;
}

// Every letter on the window by whom it is taken; those taken twice are returned in words.
QStringList takenTwice(MainWindow& window) {
    std::map<QString, QString> owner;
    QStringList twice;
    const auto take = [&](const QString& text) {
        const auto key = mnemonicOf(text);
        if (key.isEmpty()) return;
        const auto [at, free] = owner.emplace(key, text);
        if (!free) twice << key + QStringLiteral(": ") + at->second + QStringLiteral(" | ") + text;
    };
    for (const auto* menu : window.menuBar()->actions())
        take(menu->text());
    for (const auto* widget : window.findChildren<QWidget*>())
        if (widget->isVisible() && widget->window() == &window)
            for (const auto& text : lettered(*widget))
                take(text);
    return twice;
}

// Alt and its letter open each menu, wherever the keyboard is.
void openEveryMenu(MainWindow& window) {
    for (const auto* action : window.menuBar()->actions()) {
        const auto sequence = QKeySequence::mnemonic(action->text());
        REQUIRE_FALSE(sequence.isEmpty());
        INFO(action->text().toStdString());
        // Closing a menu leaves this platform without an active window.
        QApplication::setActiveWindow(&window);
        press(sequence[0].key(), Qt::AltModifier);
        CHECK(QApplication::activePopupWidget() == action->menu());
        while (auto* popup = QApplication::activePopupWidget())
            popup->close();
        window.menuBar()->setActiveAction(nullptr);
    }
}

struct Rooms : Desktop {
    Rooms() {
        REQUIRE(window.desk().makeBook(dir.filePath(QStringLiteral("sample.stillroom")),
                                       store::createSampleBook));
        window.resize(1440, 900);
        openNamed("Ox Skerry");
    }
    void openNamed(const char* name) {
        for (const auto& each : window.desk().book()->shelf())
            if (each.name == name) REQUIRE(window.desk().openDrink(each.id));
        // A kept revision in hand, so that tasting need not keep anything first.
        auto& trail = window.bench().trail();
        trail.setFocus();
        trail.setCursor(0);
    }
    void check(const char* page, bool menus = true) {
        INFO(page);
        QApplication::processEvents();
        const auto twice = takenTwice(window);
        CHECK(twice.join(QLatin1Char('\n')).toStdString() == std::string());
        if (menus) openEveryMenu(window);
    }
    BlindPage& panels() {
        auto* page = qobject_cast<BlindPage*>(window.page());
        REQUIRE(page != nullptr);
        return *page;
    }
};

} // namespace

TEST_CASE("No page takes a letter that a menu or another of its own has", "[ui][letters]") {
    Rooms rooms;
    auto& window = rooms.window;
    rooms.check("bench");
    for (const auto act : {Act::Held, Act::More, Act::Working}) {
        rooms.trigger(act);
        rooms.check(Actions::info(act).id);
    }
    for (const auto act : {Act::Larder, Act::FindFact, Act::BringToTarget, Act::WhatToBuy, Act::Compare,
                           Act::Taste, Act::Asks, Act::Search, Act::Bin, Act::Conversions, Act::PasteSpec}) {
        INFO(Actions::info(act).id);
        rooms.trigger(act);
        REQUIRE(window.page() != nullptr);
        rooms.check(Actions::info(act).id);
        if (auto* search = qobject_cast<SearchPage*>(window.page())) {
            search->words().setText(QStringLiteral("gin"));
            rooms.check("search with results");
        }
        window.closePage();
    }
    rooms.openNamed("Heather-honey syrup");
    rooms.check("preparation");
    rooms.trigger(Act::BringToTarget);
    rooms.check("a preparation brought to a target");
}

TEST_CASE("Planning, pouring and reading a panel leave the menus their letters", "[ui][letters]") {
    Rooms rooms;
    rooms.trigger(Act::Panels);
    rooms.panels().showForm();
    rooms.check("a new panel");
    for (const auto& session : rooms.window.desk().book()->book().panels()) {
        rooms.panels().showSession(session.id);
        rooms.check(session.name.c_str());
    }
    REQUIRE(rooms.window.desk().book()->book().panels().size() >= 3); // planned, pouring, closed
}
