#pragma once

#include <QWidget>

#include <optional>

namespace stillroom::ui {

// One scale from 0 to 15, set by typing its number. Digits set, Backspace clears, left and right step, Enter
// and Down go on, Up goes back.
class ScaleEntry : public QWidget {
    Q_OBJECT

  public:
    explicit ScaleEntry(const QString& name, QWidget* parent = nullptr);

    std::optional<int> score() const { return m_score; }
    void setScore(std::optional<int> score);
    void setRing(std::optional<double> mean);
    bool isRefusing() const { return m_refusing; } // the last digit typed would have gone past the top

    QSize sizeHint() const override;
    QSize minimumSizeHint() const override;

  Q_SIGNALS:
    void changed();
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
    void setFrom(QPointF point);
    QRectF scaleBox() const;
    void tell();

    QString m_name;
    std::optional<int> m_score;
    std::optional<double> m_ring;
    bool m_refusing = false;
    bool m_typing = false; // a first digit was typed since the focus came
};

} // namespace stillroom::ui
