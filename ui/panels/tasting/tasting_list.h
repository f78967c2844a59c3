#pragma once

#include "ui/panels/tasting/tasting_sheet.h"
#include "ui/plots/plot_widget.h"
#include "ui/theme/look.h"

namespace stillroom::ui {

// Scales as short rules: a disc for these tasters' mean, a ring for the others'; both in the scales' order.
double scoreRowsHeight(std::size_t scales, const Look& look);
void paintScoreRows(QPainter& painter, const QRectF& box, const std::vector<tasting::ScaleDefinition>& scales,
                    const tasting::ScoreMeans& means, const tasting::ScoreMeans& rings, bool named,
                    const Look& look);
// Verdicts under initials, then each note with its writer. Returns the height used; paints when `painter`.
double verdictsAndNotes(QPainter* painter, const QRectF& box, const std::vector<TastingEntry>& tastings,
                        const Look& look);

// What was said of a revision so far: the tasters' means, then each tasting. Up and Down choose one, Enter
// asks to correct it.
class TastingList : public PlotWidget {
    Q_OBJECT

  public:
    explicit TastingList(QWidget* parent = nullptr);

    void setSheet(const TastingSheet& sheet);
    void setTastings(std::vector<TastingEntry> tastings); // the same ones, with other photos

    QString words() const override;
    QList<QStringList> rows() const override;
    QSize sizeHint() const override;
    int current() const { return m_current; } // −1: none

  Q_SIGNALS:
    void correctionAsked(std::size_t tasting);
    void photosAsked(std::size_t tasting);
    void boxMoved(const QRect& box); // of the one that is now chosen

  protected:
    void paint(QPainter& painter) override;
    bool framesItself() const override { return m_current >= 0; }
    void resizeEvent(QResizeEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void mouseDoubleClickEvent(QMouseEvent* event) override;
    void focusInEvent(QFocusEvent* event) override;

  private:
    double layOut(QPainter* painter, double width) const;
    double layOutOne(QPainter* painter, const TastingEntry& tasting, const QRectF& from) const;
    void choose(int index);
    int tastingAt(QPointF point) const;
    void fit();

    TastingSheet m_sheet;
    int m_current = -1;
    mutable std::vector<QRectF> m_boxes; // of each tasting, as last laid out
};

} // namespace stillroom::ui
