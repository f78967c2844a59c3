#pragma once

#include "ui/panels/asks/asks_values.h"
#include "ui/plots/plot_widget.h"

namespace stillroom::ui {

// Scores across revisions as small charts, one for each scale, then what changed from each tasted revision to
// the next: a whole line where one thing did, a dashed one with a caution where several did.
class CourseCharts : public PlotWidget {
    Q_OBJECT

  public:
    explicit CourseCharts(QWidget* parent = nullptr);
    void setValues(const AsksValues& values);

    QString words() const override;
    QList<QStringList> rows() const override;
    QSize sizeHint() const override;

  protected:
    void paint(QPainter& painter) override;
    void resizeEvent(QResizeEvent* event) override;

  private:
    double layOut(QPainter* painter, double width) const;
    void paintChart(QPainter& painter, const QRectF& box, std::size_t scale) const;
    void fit();

    AsksValues m_values;
};

} // namespace stillroom::ui
