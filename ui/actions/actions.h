#pragma once

#include <QKeySequence>
#include <QList>
#include <QObject>
#include <QString>

#include <vector>

class QAction;
class QMenu;
class QMenuBar;

namespace stillroom::ui {

// Everything a person can do, once. Menus, keys and the page of keys all come from this list; a thing that
// is not here cannot be reached, so nothing is reached by mouse alone.
enum class Act {
    NewBook,
    OpenBook,
    SaveCopy,
    Search,
    Bin,
    BookSettings,
    CloseBook,
    Quit,
    Undo,
    Redo,
    PasteSpec,
    Filter,
    NewDrink,
    NewPreparation,
    Rename,
    Keep,
    HowMade,
    Restore,
    OpenRevision,
    BackToDraft,
    MakeHouse,
    Publish,
    SetAside,
    Branch,
    Drafts,
    NameDraft,
    BinDraft,
    Lineage,
    Compare,
    CopyTable,
    BinDrink,
    InsertLine,
    DeleteLine,
    SplitLine,
    MoveUp,
    MoveDown,
    ChooseIngredient,
    StandIn,
    RoleMixed,
    RoleTopped,
    RoleFloated,
    RoleRinse,
    RoleGarnish,
    ToggleOptional,
    Larder,
    FindFact,
    BinIngredient,
    BringToTarget,
    MakeBatch,
    PrintLabel,
    WhatToBuy,
    Taste,
    Asks,
    Photos,
    TastingScales,
    People,
    Panels,
    Shelf,
    NextPanel,
    NextDoubt,
    Conversions,
    Working,
    More,
    Held,
    FollowSystem,
    Light,
    Dark,
    Larger,
    Smaller,
    NormalSize,
    Keys,
    Cautions,
    About,
};
inline constexpr int kActCount = static_cast<int>(Act::About) + 1;

struct ActInfo {
    Act act;
    const char* id;   // stable, for settings and tests: "keep"
    const char* menu; // "Drink"
    const char* text; // with its mnemonic: "&Keep…"
    const char* help; // one sentence: status line, page of keys
    const char* icon; // file of resources/icons, or ""
    std::vector<QKeySequence> keys;
    bool newGroup = false;
    bool checkable = false;
};

class Actions : public QObject {
    Q_OBJECT

  public:
    explicit Actions(QObject* parent = nullptr);

    static const std::vector<ActInfo>& all();
    static const ActInfo& info(Act act);
    static QString text(Act act); // without the mnemonic
    static QString help(Act act);
    static QString keyText(Act act); // "Ctrl+S"

    QAction* at(Act act) const { return m_actions[static_cast<std::size_t>(act)]; }
    // Menus in the order of the list. `recent` is put behind "Open a book".
    void fill(QMenuBar& bar, QMenu* recent) const;
    QList<QAction*> list() const;

  private:
    std::vector<QAction*> m_actions;
};

} // namespace stillroom::ui
