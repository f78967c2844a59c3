#pragma once

#include "ui/session/draft_session.h"

#include <QPointer>
#include <QWidget>

#include <vector>

class QComboBox;
class QGridLayout;
class QLabel;

namespace stillroom::ui {

class NumberEdit;
class WrittenField;

// The figures of one step, or of what was got in the end. Each key is an edit of the draft; steps of one
// visit to a field are one step of undo. What cannot be read is framed and not taken.
class StepForm : public QWidget {
    Q_OBJECT

  public:
    explicit StepForm(QWidget* parent = nullptr);

    void setSession(DraftSession* session);
    // Which step; the number of steps: the yield in the end; below 0: none.
    void setStep(int step);
    int step() const { return m_step; }

    QComboBox& kind() { return *m_kind; }
    NumberEdit* field(std::optional<double> spec::Step::*figure); // nullptr: this kind of step has none
    NumberEdit& yield() { return *m_yield; }
    WrittenField& note() { return *m_note; }
    void focusFirst();
    void setAcross(int fields); // side by side: two, on a narrow page one

  Q_SIGNALS:
    void left(); // Esc, or Enter in the last field

  protected:
    void changeEvent(QEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;

  private:
    struct Field {
        std::optional<double> spec::Step::*figure = nullptr;
        QLabel* label = nullptr;
        NumberEdit* edit = nullptr;
        QLabel* unit = nullptr;
        double perShown = 1;    // stored = shown × perShown
        bool lostShare = false; // shown is the per cent that was lost, stored the share that came through
        int decimals = 2;
    };
    void addField(std::optional<double> spec::Step::*figure, const QString& label, const QString& unit,
                  double perShown = 1, int decimals = 2);
    NumberEdit* newEdit();
    void place();
    void refresh();
    void dress();
    void write(const Field& field);
    void writeKind(int index);
    void writeYield();
    std::optional<double> shown(const Field& field, const spec::Step& step) const;
    std::optional<double> stored(const Field& field, double shown) const;
    const spec::Step* current() const;

    QPointer<DraftSession> m_session;
    int m_step = -1;
    int m_across = 2;
    int m_mergeKey = DraftSession::kNoMerge;
    QGridLayout* m_grid;
    QLabel* m_kindLabel;
    QComboBox* m_kind;
    std::vector<Field> m_fields;
    QLabel* m_yieldLabel;
    NumberEdit* m_yield;
    QLabel* m_yieldUnit;
    QLabel* m_noteLabel;
    WrittenField* m_note;
    QLabel* m_says;
};

// Whether a step of this kind has this figure.
bool hasFigure(spec::StepKind kind, std::optional<double> spec::Step::*figure);
// Of another kind: figures that it has none of are let go.
spec::Step ofKind(const spec::Step& step, spec::StepKind kind);

} // namespace stillroom::ui
