#pragma once

#include "core/spec/spec.h"
#include "ui/session/line_entry.h"

#include <QWidget>

class QLabel;
class QHBoxLayout;

namespace stillroom::ui {

// A line that could be read two ways asks where it stands: each reading has a number key. Nothing enters
// the draft until one is chosen.
class QuestionStrip : public QWidget {
    Q_OBJECT

  public:
    explicit QuestionStrip(QWidget* parent = nullptr);

    void ask(int row, const LineEntry& entry, const larder::Larder& larder);
    bool isAsking() const { return isVisibleTo(parentWidget()); }

  Q_SIGNALS:
    void answered(int row, const std::vector<spec::Line>& lines);
    void withdrawn(int row, const QString& text); // back to the field, as typed

  protected:
    void paintEvent(QPaintEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;

  private:
    void choose(std::size_t index);

    QLabel* m_question;
    QHBoxLayout* m_buttons;
    int m_row = -1;
    QString m_text;
    std::vector<std::vector<spec::Line>> m_choices;
};

// "6–8 leaves mint": one way to read a line, for a button; always with its measure and name.
QString readingInWords(const spec::Line& line);
// "2 floz gin  +  1 floz lemon juice": the lines that ran together.
QString partsInWords(const exchange::ReadLine& fused);

} // namespace stillroom::ui
