#pragma once

#include "ui/session/paste_reading.h"

#include <QWidget>

class QHBoxLayout;
class QLabel;
class QPlainTextEdit;
class QPushButton;
class QScrollArea;
class QVBoxLayout;

namespace stillroom::ui {

class PasteRow;

// Pasted text beside its reading. What is unsure is asked where it stands, with a number key for each
// answer; nothing enters the book before it is accepted.
class PastePage : public QWidget {
    Q_OBJECT

  public:
    explicit PastePage(const WorkbookSession& book, QWidget* parent = nullptr);

    void read(const QString& text);
    // With nothing to read yet: a field to write or paste a whole recipe into, read as it grows.
    void startWriting();
    const PasteReading& reading() const { return m_reading; }
    spec::Spec acceptedSpec() const { return m_reading.spec(); }
    QString acceptedNotes() const { return m_reading.notes(); }
    QString acceptedName() const { return m_reading.name(); }
    int openQuestions() const { return m_reading.openQuestions(); }
    std::optional<base::DrinkId> drinkOfThatName() const { return m_reading.drinkOfThatName(); }
    int currentRow() const { return m_current; } // the question the number keys answer; −1: none
    QPushButton& acceptButton() { return *m_accept; }
    QPushButton& acceptWithGapsButton() { return *m_acceptGaps; }

  Q_SIGNALS:
    void accepted();
    void closed();

  protected:
    void keyPressEvent(QKeyEvent* event) override;
    void paintEvent(QPaintEvent* event) override;
    bool eventFilter(QObject* watched, QEvent* event) override;

  private:
    void rebuild();
    void showSums();
    void nextQuestion(int after);
    void answer(int row, int choice);
    void buildColumns();

    const WorkbookSession& m_book;
    PasteReading m_reading;
    std::vector<PasteRow*> m_rows;
    int m_current = -1;
    QPlainTextEdit* m_text; // shown when the text is written here
    QLabel* m_title;
    QLabel* m_source;
    QLabel* m_counts;
    QWidget* m_columnBar;
    QHBoxLayout* m_columnLayout;
    QScrollArea* m_scroll;
    QVBoxLayout* m_list;
    QLabel* m_sums;
    QLabel* m_say;
    QLabel* m_measures;
    QPushButton* m_ounces;
    QPushButton* m_accept;
    QPushButton* m_acceptGaps;
    QPushButton* m_close;
};

} // namespace stillroom::ui
