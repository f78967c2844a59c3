#pragma once

#include "ui/plots/plot_widget.h"
#include "ui/theme/look.h"

namespace stillroom::ui {

// Readings of a preparation at each moment: rows of quantities, columns of moments.
struct StandColumn {
    QString head;
    QStringList cells;   // one per row; empty: nothing to say
    bool strong = false; // the one that is poured
    bool quiet = false;  // of something else, to compare
    friend bool operator==(const StandColumn&, const StandColumn&) = default;
};
struct StandGridValues {
    QStringList names, units;
    std::vector<StandColumn> columns;
    friend bool operator==(const StandGridValues&, const StandGridValues&) = default;
};

struct StandGridBox {
    std::size_t column = 0;
    double left = 0, right = 0;
};
// Which columns fit: the first, the strong one and as many before it as there is room for; the quiet one
// last.
std::vector<StandGridBox> standColumns(const StandGridValues& values, double width, const Look& look);

void paintStandGrid(QPainter& painter, const QRectF& box, const StandGridValues& values, const Look& look);

class StandGrid : public PlotOf<StandGridValues> {
    Q_OBJECT

  public:
    explicit StandGrid(QWidget* parent = nullptr);

    QString words() const override;
    QList<QStringList> rows() const override;
    QSize sizeHint() const override;
    QSize minimumSizeHint() const override;

  protected:
    void paint(QPainter& painter) override;
};

} // namespace stillroom::ui
