#pragma once

#include "ui/plots/label_drawing.h"

class QPagedPaintDevice;
class QWidget;

namespace stillroom::ui {

// As many labels as fit on one page, in rows; each as wide as `widthMm`. Returns how many were drawn; 0: not
// one fits, or the device cannot be painted on. Always in black on white.
int drawLabels(QPagedPaintDevice& device, const LabelValues& values, int copies, double widthMm = 70);
// Asks for a printer, then draws one label.
void printLabelByDialog(const LabelValues& values, QWidget* parent);

} // namespace stillroom::ui
