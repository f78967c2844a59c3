#pragma once

#include "ui/plots/plot_widget.h"
#include "ui/theme/look.h"

#include <QRectF>
#include <QSizeF>
#include <QString>

#include <optional>
#include <vector>

namespace stillroom::ui {

// A drink at one stage as three volumes: alcohol, sugar, and the rest, which is nearly all water.
struct StageColumn {
    QString name;                  // "measured"
    std::optional<double> totalMl; // none: not known, drawn as a dashed outline
    double alcoholMl = 0;
    double sugarMl = 0;
    bool sugarAtLeast = false;
    bool served = false; // the stage the drink is drunk at: heavier outline
};

struct StageColumnsValues {
    std::vector<StageColumn> columns;
    std::vector<double> centres; // x of each column, to stand over a grid's columns; empty: spread evenly
};

struct StageColumnBox {
    QRectF outline, alcohol, sugar;
};

// All columns share one scale: the tallest just fits. Heights are volumes.
std::vector<StageColumnBox> stageColumnGeometry(const StageColumnsValues& values, QSizeF size,
                                                const Look& look);
void paintStageColumns(QPainter& painter, const QRectF& box, const StageColumnsValues& values,
                       const Look& look);

class StageColumns : public PlotOf<StageColumnsValues> {
    Q_OBJECT

  public:
    explicit StageColumns(QWidget* parent = nullptr);

    QString words() const override;
    QList<QStringList> rows() const override;
    QSize sizeHint() const override;

  protected:
    void paint(QPainter& painter) override;
};

} // namespace stillroom::ui
