#pragma once

#include "ui/plots/balance_geometry.h"
#include "ui/plots/plot_widget.h"

namespace stillroom::ui {

// Sugar to the right, acid upwards, rays of equal sugar : acid, the style's field, the way the drink took,
// and its strength on an upright scale beside it. One sentence below says what the place means.
void paintBalance(QPainter& painter, const QRectF& box, const BalanceValues& values, const Look& look);

class BalanceMap : public PlotOf<BalanceValues> {
    Q_OBJECT

  public:
    explicit BalanceMap(QWidget* parent = nullptr);

    QString words() const override;
    QList<QStringList> rows() const override;
    QSize sizeHint() const override;
    QSize minimumSizeHint() const override;

  protected:
    void paint(QPainter& painter) override;
    bool event(QEvent* event) override;
};

} // namespace stillroom::ui
