#include "ui/actions/actions.h"

#include "ui/theme/icons.h"

#include <QAction>
#include <QActionGroup>
#include <QCoreApplication>
#include <QHash>
#include <QMenu>
#include <QMenuBar>

namespace stillroom::ui {

namespace {

QString say(const char* text) {
    return QCoreApplication::translate("Actions", text);
}

std::vector<ActInfo> makeList() {
    using S = QKeySequence::StandardKey;
    const auto keys = [](auto... sequence) { return std::vector<QKeySequence>{QKeySequence(sequence)...}; };
    const auto ctrl = Qt::CTRL;
    const auto shift = Qt::SHIFT;
    const auto alt = Qt::ALT;
    std::vector<ActInfo> list;
    const auto add = [&list](Act act, const char* id, const char* menu, const char* text, const char* help,
                             const char* icon, std::vector<QKeySequence> sequences, bool newGroup = false,
                             bool checkable = false) {
        list.push_back({act, id, menu, text, help, icon, std::move(sequences), newGroup, checkable});
    };

    add(Act::NewBook, "new-book", "&Book", "&New book…", "Start an empty book in a new file.", "",
        keys(ctrl | shift | Qt::Key_N));
    add(Act::OpenBook, "open-book", "&Book", "&Open a book…", "Open a .stillroom file.", "", keys(S::Open));
    add(Act::SaveCopy, "save-copy", "&Book", "Save a &copy…",
        "Write everything to another file. The open book stays open.", "", keys(ctrl | shift | Qt::Key_S),
        true);
    add(Act::Search, "search", "&Book", "&Search…",
        "Find drinks by any word of theirs, by strength, cost, what is in them and what tasters said.", "",
        keys(ctrl | Qt::Key_F), true);
    add(Act::Bin, "bin", "&Book", "&Bin…", "What was put in the bin, to bring back or to empty.", "",
        keys(ctrl | shift | Qt::Key_U));
    add(Act::BookSettings, "house-measures", "&Book", "House &measures…",
        "What a dash, a barspoon or an egg white is in this book.", "", keys(ctrl | Qt::Key_Comma));
    add(Act::CloseBook, "close-book", "&Book", "&Close the book",
        "Close the book. Everything is saved already.", "", keys(ctrl | Qt::Key_W), true);
    add(Act::Quit, "quit", "&Book", "&Quit", "Close the window. Everything is saved already.", "",
        keys(ctrl | Qt::Key_Q));

    add(Act::Undo, "undo", "&Edit", "&Undo",
        "Take back the last edit of this draft, or of the larder while it is open.", "",
        keys(ctrl | Qt::Key_Z));
    add(Act::Redo, "redo", "&Edit", "&Redo", "Do again what was taken back.", "",
        keys(ctrl | shift | Qt::Key_Z, ctrl | Qt::Key_Y));
    add(Act::PasteSpec, "paste-spec", "&Edit", "&Paste a spec",
        "Read a recipe from the clipboard, and look at it before it enters.", "",
        keys(ctrl | shift | Qt::Key_V), true);
    add(Act::Filter, "filter", "&Edit", "&Filter drinks", "Type part of a name to find a drink on the shelf.",
        "", keys(Qt::Key_Slash), true);

    add(Act::NewDrink, "new-drink", "&Drink", "&New drink", "Start a drink with an empty page.", "",
        keys(ctrl | Qt::Key_N));
    add(Act::NewPreparation, "new-preparation", "&Drink", "New &preparation",
        "Start a syrup, an infusion or another part made here.", "preparation", keys(ctrl | Qt::Key_P));
    add(Act::Rename, "rename", "&Drink", "R&ename", "Write another name for this drink.", "",
        keys(Qt::Key_F2));
    add(Act::Keep, "keep", "&Drink", "&Keep…", "Fix the draft as a revision, with a reason.", "keep",
        keys(ctrl | Qt::Key_S), true);
    add(Act::HowMade, "how-made", "&Drink", "How it was &made…",
        "The water that was measured, and the ice, the vessel and the glass.", "",
        keys(ctrl | shift | Qt::Key_M));
    add(Act::Restore, "restore", "&Drink", "&Restore into the draft",
        "Put the revision chosen on the trail into the draft. Can be undone.", "", keys(ctrl | Qt::Key_R));
    add(Act::OpenRevision, "open-revision", "&Drink", "&Open as it was",
        "Read the revision chosen on the trail with the facts it was kept with.", "", keys(ctrl | Qt::Key_E));
    add(Act::BackToDraft, "back-to-draft", "&Drink", "&Back to the draft",
        "Leave the old revision or the page on top.", "", keys(alt | Qt::Key_Left));
    add(Act::MakeHouse, "make-house", "&Drink", "Make it the &house spec",
        "The revision chosen on the trail becomes the one in use; once more takes the mark off.",
        "state-house", keys(ctrl | Qt::Key_H));
    add(Act::Publish, "publish", "&Drink", "Mark as &published",
        "The revision chosen on the trail becomes the one readers have; once more takes the mark off.",
        "state-published", keys(ctrl | shift | Qt::Key_H));
    add(Act::SetAside, "set-aside", "&Drink", "Set a&side…",
        "Put the revision or draft chosen on the trail aside, with the reason; once more takes it back.",
        "state-set-aside", keys(ctrl | shift | Qt::Key_X));
    add(Act::Branch, "branch", "&Drink", "Br&anch a draft",
        "Begin a further draft from the revision chosen on the trail. The draft in hand stays.", "branch",
        keys(ctrl | Qt::Key_B), true);
    add(Act::Drafts, "drafts", "&Drink", "&Drafts of this drink…", "Go to another draft of this drink.", "",
        keys(ctrl | shift | Qt::Key_D));
    add(Act::NameDraft, "name-draft", "&Drink", "Na&me the draft…",
        "Give the draft in hand a name of its own: \"with honey\".", "", keys(shift | Qt::Key_F2));
    add(Act::BinDraft, "bin-draft", "&Drink", "Put the dra&ft in the bin",
        "The draft chosen on the trail, or the one in hand, leaves this drink. The bin gives it back.", "",
        keys(ctrl | shift | Qt::Key_Y));
    add(Act::Lineage, "lineage", "&Drink", "&Where it comes from…",
        "The drink or the source it comes after, and thanks; printed on everything.", "",
        keys(ctrl | shift | Qt::Key_W));
    add(Act::Compare, "compare", "&Drink", "&Side by side", "Set revisions beside each other.", "compare",
        keys(ctrl | Qt::Key_D), true);
    add(Act::CopyTable, "copy-table", "&Drink", "Copy as &table",
        "Copy what stands side by side, for a spreadsheet or a document.", "",
        keys(ctrl | shift | Qt::Key_O));
    add(Act::BinDrink, "bin-drink", "&Drink", "Put in the b&in",
        "Take the drink off the shelf. It stays in the book.", "", keys(ctrl | shift | Qt::Key_Delete), true);

    add(Act::InsertLine, "insert-line", "&Line", "&Insert a line", "Open an empty line above this one.", "",
        keys(ctrl | Qt::Key_Return, ctrl | Qt::Key_Enter));
    add(Act::DeleteLine, "delete-line", "&Line", "&Delete the line", "Take this line out of the spec.", "",
        keys(ctrl | Qt::Key_Delete, ctrl | Qt::Key_Backspace));
    add(Act::SplitLine, "split-line", "&Line", "&Split in two", "Make two lines of half each.", "",
        keys(ctrl | Qt::Key_Slash));
    add(Act::MoveUp, "move-up", "&Line", "Move &up", "Move this line up.", "", keys(alt | Qt::Key_Up), true);
    add(Act::MoveDown, "move-down", "&Line", "Move do&wn", "Move this line down.", "",
        keys(alt | Qt::Key_Down));
    add(Act::ChooseIngredient, "choose-ingredient", "&Line", "&Choose what it names…",
        "Take the line's name for another ingredient, and remember it.", "larder", keys(ctrl | Qt::Key_I),
        true);
    add(Act::StandIn, "stand-in", "&Line", "Stand-in for &this line…",
        "Pour another thing instead, with its water made up, and see what changes first.", "",
        keys(ctrl | Qt::Key_U));
    add(Act::RoleMixed, "role-mixed", "&Line", "&Mixed", "The line is mixed with the others.", "role-mixed",
        keys(ctrl | alt | Qt::Key_1), true, true);
    add(Act::RoleTopped, "role-topped", "&Line", "&Topped", "Poured on top after the method.", "role-topped",
        keys(ctrl | alt | Qt::Key_2), false, true);
    add(Act::RoleFloated, "role-floated", "&Line", "&Floated", "Floated on the finished drink.",
        "role-floated", keys(ctrl | alt | Qt::Key_3), false, true);
    add(Act::RoleRinse, "role-rinse", "&Line", "&Rinse", "Rinses the glass; what stays in it counts.",
        "role-rinse", keys(ctrl | alt | Qt::Key_4), false, true);
    add(Act::RoleGarnish, "role-garnish", "&Line", "&Garnish", "Garnishes the drink; not in the sums.",
        "role-garnish", keys(ctrl | alt | Qt::Key_5), false, true);
    add(Act::ToggleOptional, "optional", "&Line", "&Optional", "Left out of the sums, named beside them.", "",
        keys(ctrl | alt | Qt::Key_O), true, true);

    add(Act::Larder, "larder", "La&rder", "&Larder",
        "Facts, prices and stock of everything that goes in a drink, and what an edit does.", "larder",
        keys(ctrl | shift | Qt::Key_L));
    add(Act::FindFact, "find-fact", "La&rder", "&Find a fact by measuring",
        "Sugar from a weighing or a refractometer, acid, Brix, the water of a shake, what a fruit gives.", "",
        keys(ctrl | shift | Qt::Key_F));
    add(Act::BinIngredient, "bin-ingredient", "La&rder", "Put the &ingredient in the bin",
        "Take what is in hand out of the larder. Refused while something needs it.", "",
        keys(ctrl | shift | Qt::Key_Backspace));
    add(Act::BringToTarget, "bring-to-target", "La&rder", "&Bring to a target",
        "A juice to another's acid, a syrup to a Brix, an infusion to a strength, a cordial to sugar and "
        "acid.",
        "", keys(ctrl | shift | Qt::Key_T));
    add(Act::MakeBatch, "make-batch", "La&rder", "&Make a batch…",
        "In the amount wanted, or by what there is; and note what was made.", "preparation",
        keys(ctrl | Qt::Key_M));
    add(Act::PrintLabel, "print-label", "La&rder", "&Print the label…",
        "Print the label of this preparation.", "", keys(ctrl | shift | Qt::Key_P));
    add(Act::WhatToBuy, "what-to-buy", "La&rder", "Within &reach and what to buy",
        "What the shelf lets you make, what one is short of, and a list for so many serves.", "",
        keys(ctrl | shift | Qt::Key_B));

    add(Act::Taste, "taste", "&Taste", "&Taste", "Write down what this revision tastes like.", "taste",
        keys(ctrl | Qt::Key_T));
    add(Act::Asks, "asks", "&Taste", "What tasters as&k for",
        "Wishes of this revision's tasters, changes to try, and scores along the trail.", "",
        keys(ctrl | shift | Qt::Key_A));
    add(Act::Photos, "photos", "&Taste", "&Photos…",
        "Photos of the revision chosen on the trail: add, open, take off.", "",
        keys(ctrl | shift | Qt::Key_J));
    add(Act::TastingScales, "tasting-scales", "&Taste", "&Scales…",
        "What tasters are asked for in this book, and on which kind of scale.", "",
        keys(ctrl | shift | Qt::Key_K), true);
    add(Act::People, "people", "&Taste", "T&asters…",
        "Put a taster's name right, or take it out of the book.", "", keys(ctrl | shift | Qt::Key_I));
    add(Act::Panels, "panels", "&Taste", "Blind &panels",
        "Plan a blind session, take its answers down, read what it shows.", "",
        keys(ctrl | shift | Qt::Key_E));

    add(Act::Shelf, "shelf", "&View", "&Shelf", "Show or fold the shelf.", "", keys(Qt::Key_F9), false, true);
    add(Act::NextPanel, "next-panel", "&View", "&Next panel",
        "Go to the next panel: shelf, sheet, readings, trail.", "", keys(Qt::Key_F6));
    add(Act::NextDoubt, "next-doubt", "&View", "Next &doubt or gap",
        "Go to the next line that asks for something.", "gap", keys(Qt::Key_F8));
    add(Act::Conversions, "conversions", "&View", "&Conversions",
        "Convert strengths, syrups, measures and more, beside the drink.", "", keys(ctrl | Qt::Key_K));
    add(Act::Working, "working", "&View", "&Working of a reading",
        "How the number came about, step by step, with its sources.", "", keys(Qt::Key_Space), true);
    add(Act::More, "more", "&View", "&More readings",
        "Freezing, pH, sweetness, fizz, caffeine, proof, standard drinks by country.", "",
        keys(ctrl | shift | Qt::Key_G));
    add(Act::Held, "held", "&View", "&Held over time", "What the drink does in the glass over half an hour.",
        "", keys(ctrl | Qt::Key_G));
    add(Act::FollowSystem, "follow-system", "&View", "&As the system", "Light or dark as the system is.", "",
        keys(ctrl | alt | Qt::Key_S), true, true);
    add(Act::Light, "light", "&View", "&Light", "Dark ink on a light page.", "", keys(ctrl | alt | Qt::Key_L),
        false, true);
    add(Act::Dark, "dark", "&View", "Dar&k", "Light ink on a dark page.", "", keys(ctrl | alt | Qt::Key_D),
        false, true);
    add(Act::Larger, "larger", "&View", "Lar&ger", "Everything a step larger, up to twice.", "",
        keys(ctrl | Qt::Key_Plus, ctrl | Qt::Key_Equal), true);
    add(Act::Smaller, "smaller", "&View", "S&maller", "Everything a step smaller.", "",
        keys(ctrl | Qt::Key_Minus));
    add(Act::NormalSize, "normal-size", "&View", "N&ormal size", "Everything at its usual size.", "",
        keys(ctrl | Qt::Key_0));

    add(Act::Keys, "keys", "&Help", "&Keys", "Every action and its key, on one page.", "", keys(Qt::Key_F1));
    add(Act::Cautions, "cautions", "&Help", "&Cautions",
        "What can hurt somebody, and whose rules come first.", "", keys(shift | Qt::Key_F1));
    add(Act::About, "about", "&Help", "&About Stillroom", "What is computed, and from which sources.", "",
        keys(ctrl | Qt::Key_F1));
    return list;
}

} // namespace

Actions::Actions(QObject* parent) : QObject(parent) {
    m_actions.resize(kActCount);
    auto* looks = new QActionGroup(this);
    for (const auto& info : all()) {
        auto* action = new QAction(say(info.text), this);
        action->setObjectName(QLatin1String(info.id));
        action->setStatusTip(say(info.help));
        action->setShortcuts(QList<QKeySequence>(info.keys.begin(), info.keys.end()));
        action->setCheckable(info.checkable);
        if (*info.icon != '\0') action->setIcon(icon(QString::fromLatin1(info.icon)));
        if (info.act == Act::FollowSystem || info.act == Act::Light || info.act == Act::Dark)
            looks->addAction(action);
        m_actions[static_cast<std::size_t>(info.act)] = action;
    }
}

const std::vector<ActInfo>& Actions::all() {
    static const std::vector<ActInfo> list = makeList();
    return list;
}

const ActInfo& Actions::info(Act act) {
    return all()[static_cast<std::size_t>(act)];
}

QString Actions::text(Act act) {
    return say(info(act).text).remove(QLatin1Char('&'));
}

QString Actions::help(Act act) {
    return say(info(act).help);
}

QString Actions::keyText(Act act) {
    const auto& keys = info(act).keys;
    return keys.empty() ? QString() : keys.front().toString(QKeySequence::NativeText);
}

void Actions::fill(QMenuBar& bar, QMenu* recent) const {
    QHash<QString, QMenu*> menus;
    for (const auto& info : all()) {
        const QString title = say(info.menu);
        QMenu*& menu = menus[title];
        if (menu == nullptr) menu = bar.addMenu(title);
        if (info.newGroup) menu->addSeparator();
        menu->addAction(at(info.act));
        if (info.act == Act::OpenBook && recent != nullptr) menu->addMenu(recent);
    }
}

QList<QAction*> Actions::list() const {
    return QList<QAction*>(m_actions.begin(), m_actions.end());
}

} // namespace stillroom::ui
