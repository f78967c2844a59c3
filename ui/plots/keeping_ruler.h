#pragma once

#include "ui/plots/plot_widget.h"
#include "ui/theme/look.h"

#include <optional>

namespace stillroom::ui {

// From the day it was made to the day it is used by. Days are counted from the making day, which is 0 here
// and day 1 to people.
struct KeepingValues {
    int lastDay = 0;                // use by
    std::optional<int> today;       // below 0: not yet made
    bool assumed = false;           // nobody noted when it was made: drawn as if today
    QString made, now, left, useBy; // "made 22 Nov", "today, 25 Nov", "11 days left, at 4 °C", "use by 6 Dec"
    QString warning;                // a part past its day; empty: none
    QString words;                  // on what it rests; said below the ruler, or alone when there is no date
    bool drawn = false;
    friend bool operator==(const KeepingValues&, const KeepingValues&) = default;
};

struct KeepingGeometry {
    QRectF ruler;
    QRectF gone; // the part of it that is over
    std::vector<double> ticks;
    std::vector<double> weeks; // longer ticks
    double x(double day) const { return ruler.left() + day * pxPerDay; }
    double pxPerDay = 0;
};
KeepingGeometry keepingGeometry(const KeepingValues& values, QSizeF size, const Look& look);

void paintKeeping(QPainter& painter, const QRectF& box, const KeepingValues& values, const Look& look);

class KeepingRuler : public PlotOf<KeepingValues> {
    Q_OBJECT

  public:
    explicit KeepingRuler(QWidget* parent = nullptr);

    QString words() const override;
    QList<QStringList> rows() const override;
    QSize sizeHint() const override;
    QSize minimumSizeHint() const override;
    bool hasHeightForWidth() const override { return true; }
    int heightForWidth(int width) const override;

  protected:
    void paint(QPainter& painter) override;
};

} // namespace stillroom::ui
