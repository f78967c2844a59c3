#pragma once

#include "ui/plots/plot_widget.h"
#include "ui/theme/look.h"

#include <utility>
#include <vector>

namespace stillroom::ui {

// What stands on a bottle's label.
struct LabelValues {
    QString name;
    QString about;                                 // "one to one by weight, 42 Bx"
    std::vector<std::pair<QString, QString>> days; // "made" "22 Nov", "use by" "6 Dec"
    QStringList cautions;
    QString allergens; // "Allergens: none of the fourteen."
    QString keep;      // "Keep refrigerated."
    QString credit;    // where it comes from
    QString deference;
    friend bool operator==(const LabelValues&, const LabelValues&) = default;
};

QString labelText(const LabelValues& values);
// How high a label of this width must be to hold all of it.
double labelHeight(const LabelValues& values, double width, const Look& look);
// Draws on screen and on paper; the frame is where it is cut.
void paintLabel(QPainter& painter, const QRectF& box, const LabelValues& values, const Look& look);

class LabelDrawing : public PlotOf<LabelValues> {
    Q_OBJECT

  public:
    explicit LabelDrawing(QWidget* parent = nullptr);

    QString words() const override { return labelText(m_values); }
    QList<QStringList> rows() const override;
    QSize sizeHint() const override;
    QSize minimumSizeHint() const override;
    bool hasHeightForWidth() const override { return true; }
    int heightForWidth(int width) const override;

  protected:
    void paint(QPainter& painter) override;
    void keyPressEvent(QKeyEvent* event) override;
};

} // namespace stillroom::ui
