#pragma once

#include "ui/panels/tasting/tasting_sheet.h"
#include "ui/plots/plot_widget.h"
#include "ui/theme/look.h"

namespace stillroom::ui {

// Five scales as short rules: a disc for these tasters' mean, a ring for the others'.
double scoreRowsHeight(const Look& look);
void paintScoreRows(QPainter& painter, const QRectF& box, const MeanScores& means, const MeanScores& rings,
                    bool named, const Look& look);
// Verdicts under initials, then each note with its writer. Returns the height used; paints when `painter`.
double verdictsAndNotes(QPainter* painter, const QRectF& box, const std::vector<TastingEntry>& tastings,
                        const Look& look);

// What was said of a revision so far: the tasters' means, then each tasting.
class TastingList : public PlotWidget {
    Q_OBJECT

  public:
    explicit TastingList(QWidget* parent = nullptr);

    void setSheet(const TastingSheet& sheet);

    QString words() const override;
    QList<QStringList> rows() const override;
    QSize sizeHint() const override;

  protected:
    void paint(QPainter& painter) override;
    void resizeEvent(QResizeEvent* event) override;

  private:
    double layOut(QPainter* painter, double width) const;
    void fit();

    TastingSheet m_sheet;
};

} // namespace stillroom::ui
