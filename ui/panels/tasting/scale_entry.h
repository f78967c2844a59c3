#pragma once

#include "core/tasting/scales.h"

#include <QWidget>

#include <optional>

class QPainter;

namespace stillroom::ui {

class Look;

// One of the book's scales, set by typing its number: a rule with a wedge, or five words of which one holds.
// Digits set, Backspace clears, left and right step, Enter and Down go on, Up goes back.
class ScaleEntry : public QWidget {
    Q_OBJECT

  public:
    explicit ScaleEntry(tasting::ScaleDefinition scale, QWidget* parent = nullptr);

    const tasting::ScaleDefinition& scale() const { return m_scale; }
    int lowest() const { return tasting::lowestScore(m_scale.kind); }
    int highest() const { return tasting::highestScore(m_scale.kind); }

    std::optional<int> score() const { return m_score; }
    void setScore(std::optional<int> score);
    void setRing(std::optional<double> mean);
    bool isRefusing() const { return m_refusing; } // the last digit typed would have left the scale
    void setNameWidth(double width);               // of all scales of a page alike, so that they line up
    static double nameWidth(const QString& name);

    QSize sizeHint() const override;
    QSize minimumSizeHint() const override;

  Q_SIGNALS:
    void changed();
    void entered(); // the focus came
    void leaveForward();
    void leaveBackward();

  protected:
    void paintEvent(QPaintEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void mouseMoveEvent(QMouseEvent* event) override;
    void focusInEvent(QFocusEvent* event) override;
    void focusOutEvent(QFocusEvent* event) override;

  private:
    void type(int digit);
    void setRefusing(bool refusing);
    QString descriptionText() const;
    QString range() const;
    bool isWords() const { return m_scale.kind == tasting::ScaleKind::JustAboutRight; }
    void setFrom(QPointF point);
    QRectF scaleBox() const;
    double xOf(double score) const;
    void paintRule(QPainter& painter, const Look& look) const;
    void paintWords(QPainter& painter, const Look& look) const;
    void tell();

    tasting::ScaleDefinition m_scale;
    QString m_name;
    double m_nameWidth = 0; // in pixels at 100 %
    std::optional<int> m_score;
    std::optional<double> m_ring;
    bool m_refusing = false;
    bool m_typing = false; // a first digit was typed since the focus came
};

} // namespace stillroom::ui
