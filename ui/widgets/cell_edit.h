#pragma once

#include "core/larder/larder.h"
#include "core/spec/spec.h"

#include <QLineEdit>
#include <QPersistentModelIndex>

#include <functional>
#include <optional>

class QCompleter;
class QStringListModel;

namespace stillroom::ui {

// Undo and redo belong to the draft, not to the field under the caret: the field lets their keys pass.
bool isUndoOrRedo(const QEvent* event);

// The field a cell of the sheet opens for typing. It looks like the cell: page-coloured, with the focus
// frame around it, text as typed.
class CellEdit : public QLineEdit {
    Q_OBJECT

  public:
    explicit CellEdit(QWidget* parent = nullptr);

    // Where it stands, and what one visit to it holds together.
    QPersistentModelIndex cell;
    int mergeKey = -1;
    spec::Measured before;                    // the amount when it was opened, for Esc
    std::optional<base::IngredientId> chosen; // picked from the list, not only typed
    bool keepsName = false;                   // what is picked is what the name means, not another name

    void setUnreadable(bool unreadable);
    bool isUnreadable() const { return m_unreadable; }

    // Offers ingredients while typing.
    using Search = std::function<std::vector<const larder::Ingredient*>(const QString&)>;
    void offer(Search search);
    void showOffers(const QString& text);
    bool offersShown() const;

  Q_SIGNALS:
    void ingredientChosen(const QString& name);

  protected:
    bool event(QEvent* event) override;
    void paintEvent(QPaintEvent* event) override;

  private:
    void choose(const QString& name);

    bool m_unreadable = false;
    Search m_search;
    QCompleter* m_completer = nullptr;
    QStringListModel* m_names = nullptr;
    std::vector<std::pair<QString, base::IngredientId>> m_offers;
};

} // namespace stillroom::ui
