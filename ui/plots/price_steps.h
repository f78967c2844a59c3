#pragma once

#include "ui/plots/wide_plot.h"
#include "ui/theme/look.h"

#include <QRectF>

#include <vector>

namespace stillroom::ui {

// What a unit cost, step by step. `worth` and `day` are finished figures; texts are as people read them.
struct PriceStepsValues {
    struct Step {
        int day = 0;
        double worth = 0;
        QString on, price, change; // "14 Sep", "3.30", "+6.1 %"
        friend bool operator==(const Step&, const Step&) = default;
    };
    std::vector<Step> steps; // by day
    int today = 0;
    QString per;     // "€ / 100 ml"
    QString leftOut; // what stands on no line; may be empty
    friend bool operator==(const PriceStepsValues&, const PriceStepsValues&) = default;
};

struct PriceStepsGeometry {
    QRectF field;
    double low = 0, high = 0;    // what the field's bottom and top edges stand for
    std::vector<QPointF> starts; // where each step begins
    double now = 0;              // x of today
};
// From the first day to today; the field spans from the least to the most, with a little room.
PriceStepsGeometry priceStepsGeometry(const PriceStepsValues& values, QSizeF size, const Look& look);
void paintPriceSteps(QPainter& painter, const QRectF& box, const PriceStepsValues& values, const Look& look);

class PriceSteps : public WidePlot<PriceStepsValues> {
    Q_OBJECT

  public:
    explicit PriceSteps(QWidget* parent = nullptr);

    QString words() const override;
    QList<QStringList> rows() const override;

  protected:
    double tall() const override;
    void paint(QPainter& painter) override;
};

} // namespace stillroom::ui
