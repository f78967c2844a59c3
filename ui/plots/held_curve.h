#pragma once

#include "ui/plots/held_geometry.h"
#include "ui/plots/plot_widget.h"

namespace stillroom::ui {

// `minute`: the one whose readings stand beside the strips.
void paintHeldCurve(QPainter& painter, const QRectF& box, const HeldValues& values, double minute,
                    const Look& look);

// What a drink does while it stands. Left and right walk through the minutes.
class HeldCurve : public PlotWidget {
    Q_OBJECT

  public:
    explicit HeldCurve(QWidget* parent = nullptr);

    void setValues(const HeldValues& values);
    const HeldValues& values() const { return m_values; }
    double minute() const { return m_minute; }
    void setMinute(double minute); // held within the curve

    QString words() const override;
    QList<QStringList> rows() const override;
    QSize sizeHint() const override;
    QSize minimumSizeHint() const override;

  protected:
    void paint(QPainter& painter) override;
    void keyPressEvent(QKeyEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void mouseMoveEvent(QMouseEvent* event) override;

  private:
    HeldValues m_values;
    double m_minute = 10;
};

} // namespace stillroom::ui
