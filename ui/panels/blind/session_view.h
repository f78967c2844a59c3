#pragma once

#include "ui/panels/blind/blind_desk.h"

#include <QWidget>

class QBoxLayout;
class QHBoxLayout;
class QLabel;
class QLineEdit;
class QPushButton;
class QVBoxLayout;

namespace stillroom::ui {

class AnswerModel;
class AnswerTable;

// What one may do with a session.
enum class BlindAct : unsigned char { Start, Sheets, Key, Close, CopyResult, PrintResult, Bin };

// One session as it stands: its name, which can be changed, a line about it, what belongs to its state, and
// what one may do. Nothing that says which cup holds what is on it before the session is closed.
class SessionView : public QWidget {
    Q_OBJECT

  public:
    explicit SessionView(BlindDesk& desk, const BlindSession& session, QWidget* parent = nullptr);

    const BlindSession& session() const { return m_session; }
    base::PanelId id() const { return m_session.summary.id; }
    QLineEdit& name() { return *m_name; }
    QPushButton* button(BlindAct act) const;
    AnswerTable* answers() const { return m_answers; }
    QWidget* first() const; // what takes the keyboard
    // After an answer was kept: the counts, and what is shown of them.
    void setSummary(const store::PanelSummary& summary);

  Q_SIGNALS:
    void asked(stillroom::ui::BlindAct act);
    void answered(std::size_t taster, const stillroom::tasting::Answer& answer);
    void renamed(const QString& name);
    void said(const QString& what);

  protected:
    void keyPressEvent(QKeyEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;

  private:
    void makePlanned(QVBoxLayout& column);
    void makePouring(QVBoxLayout& column);
    void makeClosed(QVBoxLayout& column);
    void addDrawing(QVBoxLayout& column, const tasting::PanelResult& result);
    void addAnswers(QVBoxLayout& column, bool opened);
    void addActs(QVBoxLayout& column);
    QPushButton* add(QHBoxLayout& row, BlindAct act, const QString& text, bool primary = false);
    QString about() const;

    BlindDesk& m_desk;
    BlindSession m_session;
    QLineEdit* m_name;
    QLabel* m_about;
    QBoxLayout* m_halves = nullptr; // of the plan
    AnswerModel* m_model = nullptr;
    AnswerTable* m_answers = nullptr;
    std::vector<std::pair<BlindAct, QPushButton*>> m_buttons;
};

} // namespace stillroom::ui
