#pragma once

#include "ui/session/draft_session.h"

#include <QPointer>
#include <QWidget>

class QHBoxLayout;
class QLabel;
class QToolButton;

namespace stillroom::ui {

class Actions;
class WrittenField;

// The drink's name and brief, what the draft stands on, and the acts at hand.
class SheetHead : public QWidget {
    Q_OBJECT

  public:
    explicit SheetHead(const Actions& actions, QWidget* parent = nullptr);

    void setSession(DraftSession* session);
    void showRevision(const history::Revision* revision); // nullptr: the draft again
    WrittenField& title() { return *m_title; }
    WrittenField& brief() { return *m_brief; }
    QString credit() const; // "" without one

  Q_SIGNALS:
    void leaveDown(); // Enter in the brief

  protected:
    void changeEvent(QEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;

  private:
    void refresh();
    void showCredit();
    QString revisionState() const;
    void dress();
    void giveRoom();
    void write();

    QPointer<DraftSession> m_session;
    std::optional<history::Revision> m_revision;
    WrittenField* m_title;
    WrittenField* m_brief;
    QLabel* m_state;
    QLabel* m_credit;
    history::Drink m_credited; // what the line says already
    QHBoxLayout* m_top;
    std::vector<QToolButton*> m_buttons;
    int m_mergeKey = DraftSession::kNoMerge;
};

} // namespace stillroom::ui
