#pragma once

#include "ui/panels/notices.h"
#include "ui/session/draft_session.h"

#include <QPointer>
#include <QScrollArea>

namespace stillroom::ui {

class Actions;
class QuestionStrip;
class SheetHead;
class SpecFields;
class SpecTable;
class SpecTotal;
class StepPane;

// The page of a drink: what it is called and for, its lines, how it is made, and what must be said about it.
class SheetPanel : public QScrollArea {
    Q_OBJECT

  public:
    explicit SheetPanel(const Actions& actions, QWidget* parent = nullptr);

    void setSession(DraftSession* session);
    // A revision read as it was, with the facts it was kept with. nullptr: the draft again.
    void showRevision(const history::Revision* revision, const larder::Larder* larder);
    bool showsRevision() const { return m_revisionShown; }

    SpecTable& table() { return *m_table; }
    SheetHead& head() { return *m_head; }
    SpecFields& fields() { return *m_fields; }
    Notices& notices() { return *m_notices; }
    QuestionStrip& question() { return *m_question; }
    StepPane& steps() { return *m_steps; }

    // The next thing that asks for a word: a question, a line with a gap, a notice.
    void nextDoubt();

  Q_SIGNALS:
    void noticeAct(stillroom::ui::NoticeAct act, int line);
    void said(const QString& text); // for the status line

  protected:
    void changeEvent(QEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;

  private:
    void refresh();
    void dress();

    QPointer<DraftSession> m_session;
    SheetHead* m_head;
    SpecTable* m_table;
    QuestionStrip* m_question;
    SpecTotal* m_total;
    StepPane* m_steps; // of a preparation
    SpecFields* m_fields;
    Notices* m_notices;
    bool m_revisionShown = false;
};

} // namespace stillroom::ui
