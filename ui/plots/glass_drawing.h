#pragma once

#include "ui/plots/glass_geometry.h"
#include "ui/plots/plot_widget.h"

namespace stillroom::ui {

// The glass in section, to scale, with the true fill line. One routine for screen, printer and image.
void paintGlass(QPainter& painter, const QRectF& box, const GlassValues& values, const Look& look);
QString glassFact(const GlassValues& values, const GlassGeometry& geometry); // "full to 88 % of the brim,"
QString glassConsequence(const GlassValues& values, const GlassGeometry& geometry); // "8 mm to spare"
// What nobody may miss about it, the gravest first: "coffee liqueur sinks and mixes in".
QStringList glassDoubts(const GlassValues& values);
QString layerWords(const GlassValues& values, std::size_t layer); // "float: 10 ml at 948 kg/m³"
QString glassScale(const GlassValues& values,
                   const GlassGeometry& geometry); // "Low tumbler, drawn at 1 : 1.5"

class GlassDrawing : public PlotOf<GlassValues> {
    Q_OBJECT

  public:
    explicit GlassDrawing(QWidget* parent = nullptr);

    QString words() const override;
    QList<QStringList> rows() const override;
    // Of the layer, head or ice at this place, for the pointer; empty beside the glass.
    QString wordsAt(QPointF at) const;
    QSize sizeHint() const override;
    QSize minimumSizeHint() const override;

  protected:
    void paint(QPainter& painter) override;
    bool event(QEvent* event) override;
};

} // namespace stillroom::ui
