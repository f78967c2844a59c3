#pragma once

#include "core/base/id.h"

#include <QWidget>

class QLabel;
class QScrollArea;

namespace stillroom::ui {

class Banner;
class ImpactStrip;
class IngredientSheet;
class LarderEdit;
class LarderList;

// The larder: everything that can go in a drink on the left, the one in hand on the right, and what an edit
// of it would do below, before it is accepted. The edits live in the book's session: leaving the page loses
// none.
class LarderPage : public QWidget {
    Q_OBJECT

  public:
    explicit LarderPage(LarderEdit& edit, QWidget* parent = nullptr);

    LarderList& list() { return *m_list; }
    IngredientSheet& sheet() { return *m_sheet; }
    ImpactStrip& strip() { return *m_strip; }
    LarderEdit& edit() { return m_edit; }
    void open(base::IngredientId ingredient);
    const Banner& doubts() const { return *m_doubts; }

  Q_SIGNALS:
    void closed();
    void drinkAsked(base::DrinkId drink);
    void said(const QString& words);

  protected:
    void keyPressEvent(QKeyEvent* event) override;
    void changeEvent(QEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    bool eventFilter(QObject* watched, QEvent* event) override;

  private:
    void accept();
    void leave();
    void showEmptiness();
    void keepInSight();
    void toNextDoubt();
    void dress();

    LarderEdit& m_edit;
    LarderList* m_list;
    IngredientSheet* m_sheet;
    QScrollArea* m_scroll;
    Banner* m_doubts; // of the facts in hand, wherever the sheet is scrolled to
    ImpactStrip* m_strip;
    QLabel* m_empty;
    QWidget* m_divide;
};

} // namespace stillroom::ui
