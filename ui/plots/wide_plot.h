#pragma once

#include "ui/plots/plot_widget.h"
#include "ui/theme/theme.h"

namespace stillroom::ui {

// A drawing that takes the width it is given and is as tall as what it shows. Pixels at 100 %.
template <class Values>
class WidePlot : public PlotOf<Values> {
  public:
    WidePlot(const QString& name, int wide, int leastWide, QWidget* parent)
        : PlotOf<Values>(name, parent),
          m_wide(wide),
          m_leastWide(leastWide) {
        this->setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    }

    QSize sizeHint() const override { return {px(m_wide), px(tall())}; }
    QSize minimumSizeHint() const override { return {px(m_leastWide), px(tall())}; }

  protected:
    virtual double tall() const = 0;

  private:
    static int px(double at100) { return Theme::current().pxInt(at100); }
    int m_wide;
    int m_leastWide;
};

} // namespace stillroom::ui
