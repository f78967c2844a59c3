#pragma once

#include "ui/plots/plot_widget.h"
#include "ui/plots/step_bars_geometry.h"

class QRectF;

namespace stillroom::ui {

// The same routine draws on screen and on paper. `cursor` < 0: none is framed.
void paintStepBars(QPainter& painter, const QRectF& box, const StepBarsValues& values, int cursor,
                   const Look& look);

// What is left, step by step, as a list one walks through and edits.
class StepBars : public PlotOf<StepBarsValues> {
    Q_OBJECT

  public:
    explicit StepBars(QWidget* parent = nullptr);

    void setValues(const StepBarsValues& values); // the cursor stays where it may
    int cursor() const { return m_cursor; }
    void setCursor(int bar);
    void setReadOnly(bool readOnly) { m_readOnly = readOnly; }

    QString words() const override;
    QList<QStringList> rows() const override;
    QSize sizeHint() const override;
    QSize minimumSizeHint() const override;

  Q_SIGNALS:
    void cursorMoved(int bar);
    void editAsked();
    void addAsked();
    void removeAsked();
    void moveAsked(int by);

  protected:
    void paint(QPainter& painter) override;
    bool framesItself() const override { return !m_values.bars.empty(); }
    bool event(QEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void mouseDoubleClickEvent(QMouseEvent* event) override;

  private:
    int stop(int from, int by) const; // the next bar the cursor stops at; from when there is none

    int m_cursor = -1;
    bool m_readOnly = false;
};

} // namespace stillroom::ui
