#pragma once

#include "ui/session/paste_reading.h"

#include <QWidget>

class QHBoxLayout;
class QLineEdit;
class QPainter;

namespace stillroom::ui {

// One raw line beside its reading, and the question about it where there is one.
class PasteRow : public QWidget {
    Q_OBJECT

  public:
    PasteRow(int number, const PasteReading::Row& row, const std::optional<spec::Line>& line,
             const QString& matchedName, const QString& name, QWidget* parent = nullptr);

    void setCurrent(bool current);
    void startRewriting();
    QSize sizeHint() const override;
    static double rawWidth(double width); // the left column, at this width of a row

  Q_SIGNALS:
    void answered(int choice);
    void rewritten(const QString& text);

  protected:
    void paintEvent(QPaintEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;

  private:
    void addAnswers();
    QString question() const;
    QString refusal() const; // why it is none of the drink, and where it goes; empty: it was not refused
    void paintReading(QPainter& painter, double left, double right, const QColor& ink) const;

    int m_number;
    PasteReading::Row m_row;
    std::optional<spec::Line> m_line;
    QString m_matched;
    QString m_name;
    QWidget* m_answers = nullptr;
    QLineEdit* m_edit = nullptr;
    bool m_current = false;
};

} // namespace stillroom::ui
