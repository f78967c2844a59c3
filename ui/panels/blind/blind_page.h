#pragma once

#include "ui/panels/blind/blind_desk.h"
#include "ui/panels/blind/design_form.h"
#include "ui/panels/blind/session_view.h"

#include <QPointer>
#include <QWidget>

class QBoxLayout;
class QLabel;
class QListWidget;
class QPushButton;
class QScrollArea;

namespace stillroom::ui {

// Blind sessions: the list of them, and beside it one, or the form for the next. Which one is in hand stands
// through every change of its state.
class BlindPage : public QWidget {
    Q_OBJECT

  public:
    explicit BlindPage(BlindDesk& desk, QWidget* parent = nullptr);

    QListWidget& list() { return *m_list; }
    QPushButton& newButton() { return *m_new; }
    DesignForm* form() const { return m_form; }
    SessionView* view() const { return m_view; }
    void showForm();
    void showSession(base::PanelId panel);
    void showEmpty();

  Q_SIGNALS:
    void closed();
    void said(const QString& what);
    void addProductAsked();
    void asked(stillroom::ui::BlindAct act);

  protected:
    void keyPressEvent(QKeyEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    bool eventFilter(QObject* object, QEvent* event) override;

  private:
    void fillList();
    void show(QWidget* content);
    void rebuild();
    void chooseRow(int row);
    void place();
    void dress();
    QWidget* emptyPage() const;

    BlindDesk& m_desk;
    QWidget* m_side;
    QPushButton* m_new;
    QListWidget* m_list;
    QWidget* m_divide;
    QScrollArea* m_scroll;
    QBoxLayout* m_halves;
    QPointer<DesignForm> m_form;
    QPointer<SessionView> m_view;
    std::optional<base::PanelId> m_shown;
    bool m_placing = false;
};

} // namespace stillroom::ui
