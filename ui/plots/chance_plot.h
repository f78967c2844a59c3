#pragma once

#include "ui/plots/wide_plot.h"
#include "ui/theme/look.h"

#include <optional>
#include <vector>

class QRectF;

namespace stillroom::ui {

// How often guessing alone gives each count, and where this panel's count stands among them.
struct ChanceValues {
    std::vector<double> chance; // of 0, 1, 2 …
    std::optional<int> needed;  // from here a difference counts
    int count = 0;
    QString countWords; // "8 of 12 named the odd one"
    QString level;      // "5 %"
    QString axis;       // "how many of 12 would name it by chance alone"
};

// A row of bars drawn to one scale; bars nobody would see are left out at both ends.
struct ChanceGeometry {
    int first = 0;
    int last = 0;
    double left = 0;
    double step = 0; // between counts
    double base = 0;
    double height = 0; // of the tallest
    double x(int count) const { return left + (count - first + 0.5) * step; }
};
ChanceGeometry chanceGeometry(const ChanceValues& values, QSizeF size, const Look& look);
void paintChance(QPainter& painter, const QRectF& box, const ChanceValues& values, const Look& look);

class ChancePlot : public WidePlot<ChanceValues> {
    Q_OBJECT

  public:
    explicit ChancePlot(QWidget* parent = nullptr);

    QString words() const override;
    QList<QStringList> rows() const override;

  protected:
    double tall() const override;
    void paint(QPainter& painter) override;
};

// Products on one scale: a rank sum as a dot, a mean with its interval.
struct ProductScaleValues {
    struct Row {
        QString name;
        double value = 0;
        std::optional<double> low;
        std::optional<double> high;
        QString words; // "14.5", "6.2, 4.9 to 7.5"
    };
    double from = 0;
    double to = 1;
    std::vector<Row> rows;
    std::optional<double> apart; // two values this far apart differ
    QString low;                 // what the ends mean
    QString high;
    QString apartWords;
};
void paintProductScale(QPainter& painter, const QRectF& box, const ProductScaleValues& values,
                       const Look& look);

class ProductScalePlot : public WidePlot<ProductScaleValues> {
    Q_OBJECT

  public:
    explicit ProductScalePlot(QWidget* parent = nullptr);

    QString words() const override;
    QList<QStringList> rows() const override;

  protected:
    double tall() const override;
    void paint(QPainter& painter) override;
};

} // namespace stillroom::ui
