#include "ui/panels/preparation/print_label.h"

#include "ui/theme/look.h"

#include <QPagedPaintDevice>
#include <QPainter>
#include <QPrintDialog>
#include <QPrinter>

#include <algorithm>
#include <memory>

namespace stillroom::ui {

int drawLabels(QPagedPaintDevice& device, const LabelValues& values, int copies, double widthMm) {
    QPainter painter;
    if (!painter.begin(&device)) return 0;
    const double dpi = device.logicalDpiX();
    // Type at its screen size of 96 dots per inch: 13.5 px are 10 points, legible on a bottle.
    constexpr double kScreenDpi = 96;
    const Look look = Look::of(Mode::Light, dpi / kScreenDpi, dpi);
    constexpr double kMmPerInch = 25.4;
    const double width = widthMm / kMmPerInch * dpi;
    const double gap = look.px(12);
    const double height = labelHeight(values, width, look);
    const QRectF page(QPointF(0, 0), device.pageLayout().paintRectPixels(static_cast<int>(dpi)).size());
    int drawn = 0;
    for (double y = 0; y + height <= page.height() && drawn < copies; y += height + gap)
        for (double x = 0; x + width <= page.width() && drawn < copies; x += width + gap, ++drawn)
            paintLabel(painter, QRectF(x, y, width, height), values, look);
    painter.end();
    return drawn;
}

void printLabelByDialog(const LabelValues& values, QWidget* parent) {
    // Lives as long as the connection does, which is as long as the dialog.
    const auto printer = std::make_shared<QPrinter>(QPrinter::HighResolution);
    auto* dialog = new QPrintDialog(printer.get(), parent);
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    dialog->setWindowTitle(QObject::tr("Print the label"));
    QObject::connect(dialog, qOverload<>(&QDialog::accepted), dialog,
                     [printer, values] { drawLabels(*printer, values, std::max(printer->copyCount(), 1)); });
    dialog->open();
}

} // namespace stillroom::ui
