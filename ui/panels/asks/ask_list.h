#pragma once

#include "ui/panels/asks/asks_values.h"
#include "ui/plots/plot_widget.h"

namespace stillroom::ui {

// What is asked for, and under each wish the changes that go its way. Up and Down choose a change, Enter
// takes it into the draft.
class AskList : public PlotWidget {
    Q_OBJECT

  public:
    explicit AskList(QWidget* parent = nullptr);

    void setValues(const AsksValues& values);
    void setTaking(bool can);                 // a book that is only read takes nothing
    int current() const { return m_current; } // of all changes in their order; −1: none
    const AskChange* change(int index) const;
    int count() const;

    QString words() const override;
    QList<QStringList> rows() const override;
    QSize sizeHint() const override;

  Q_SIGNALS:
    void taken(int change);
    void boxMoved(const QRect& box);

  protected:
    void paint(QPainter& painter) override;
    bool framesItself() const override { return m_current >= 0; }
    void resizeEvent(QResizeEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void mouseDoubleClickEvent(QMouseEvent* event) override;

  private:
    double layOut(QPainter* painter, double width) const;
    double layOutChange(QPainter* painter, const AskChange& change, const QRectF& from, bool chosen) const;
    void choose(int index);
    int changeAt(QPointF point) const;
    void fit();

    AsksValues m_values;
    int m_current = -1;
    bool m_taking = true;
    mutable std::vector<QRectF> m_boxes;
};

} // namespace stillroom::ui
