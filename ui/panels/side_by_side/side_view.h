#pragma once

#include "ui/panels/side_by_side/side_table.h"
#include "ui/plots/plot_widget.h"
#include "ui/theme/look.h"

namespace stillroom::ui {

// Where everything of the comparison stands, for a width.
struct SideLayout {
    double nameWidth = 0;
    double columnWidth = 0;
    double width = 0;
    double height = 0;
    double glassTop = 0, glassHeight = 0;
    std::vector<int> shown;   // rows of the table, by index
    std::vector<double> tops; // of each shown row
    std::vector<double> heights;
    double readingsTop = 0;
    double scoresTop = 0;
    double notesTop = 0;
    double columnX(std::size_t column) const { return nameWidth + columnWidth * static_cast<double>(column); }
};
SideLayout sideLayout(const SideBySideValues& values, const SideTable& table, double width,
                      bool onlyDifferences, const Look& look);
void paintSideBySide(QPainter& painter, const SideBySideValues& values, const SideTable& table,
                     const SideLayout& layout, const QRectF& visible, const Look& look);

// The columns themselves: glasses at one scale, lines, readings, scores, verdicts and notes. Left and right
// move the base.
class SideView : public PlotWidget {
    Q_OBJECT

  public:
    explicit SideView(QWidget* parent = nullptr);

    void setValues(const SideBySideValues& values);
    void setOnlyDifferences(bool only);
    bool onlyDifferences() const { return m_onlyDifferences; }
    void setReading(history::Per per, std::optional<spec::Stage> stage);
    const SideTable& table() const { return m_table; }
    const SideBySideValues& values() const { return m_values; }

    QString words() const override;
    QList<QStringList> rows() const override;
    QSize sizeHint() const override;

  Q_SIGNALS:
    void baseMoved();

  protected:
    void paint(QPainter& painter) override;
    bool framesItself() const override { return !m_values.columns.empty(); }
    void paintEvent(QPaintEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;

  private:
    void layOut();
    void moveBase(std::size_t to);

    SideBySideValues m_values;
    SideTable m_table;
    SideLayout m_layout;
    QRectF m_visible;
    bool m_onlyDifferences = false;
};

} // namespace stillroom::ui
