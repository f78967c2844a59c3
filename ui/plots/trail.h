#pragma once

#include "ui/plots/plot_widget.h"
#include "ui/plots/trail_geometry.h"

class QScrollBar;

namespace stillroom::ui {

// The part of the trail from `offset` on, without its threads. `cursor` is an item, −1 for none.
void paintTrail(QPainter& painter, const QRectF& view, const TrailValues& values,
                const TrailGeometry& geometry, double offset, int cursor, const Look& look);
// For paper and images: everything that fits, runs folded, threads at the end where there is room.
void paintWholeTrail(QPainter& painter, const QRectF& box, const TrailValues& values, const Look& look);

// A drink's revisions as a line of marks. Arrow keys walk it, Home and End jump, Up takes a branch and Down
// goes back to what it grew from, Enter opens a mark or unfolds a run.
class Trail : public PlotWidget {
    Q_OBJECT

  public:
    explicit Trail(QWidget* parent = nullptr);

    void setValues(const TrailValues& values);
    const TrailValues& values() const { return m_values; }
    int cursor() const; // the mark the keyboard is on; −1 when the trail is empty
    void setCursor(int mark);
    const TrailGeometry& geometry() const { return m_geometry; }

    QString words() const override;
    QList<QStringList> rows() const override;
    QSize sizeHint() const override;
    QSize minimumSizeHint() const override;

  Q_SIGNALS:
    void cursorMoved(int mark);
    void activated(int mark);

  protected:
    void paint(QPainter& painter) override;
    bool framesItself() const override { return !m_values.marks.empty(); }
    void resizeEvent(QResizeEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void mouseDoubleClickEvent(QMouseEvent* event) override;
    void wheelEvent(QWheelEvent* event) override;
    bool event(QEvent* event) override;

  private:
    void layOut();
    void measure(const TrailValues* before);
    void moveTo(int item);
    void enter(int item);
    int itemAt(QPointF point) const;
    double viewWidth() const;
    QString markWords(const TrailMark& mark) const;

    TrailValues m_values;
    std::vector<double> m_textWidths;
    std::vector<int> m_lanes;
    TrailGeometry m_geometry;
    std::set<int> m_expanded;
    int m_item = -1;
    QScrollBar* m_scrollBar;
};

} // namespace stillroom::ui
