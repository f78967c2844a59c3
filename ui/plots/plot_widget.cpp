#include "ui/plots/plot_widget.h"

#include "ui/theme/marks.h"
#include "ui/theme/theme.h"

#include <QAccessible>
#include <QAccessibleWidget>
#include <QClipboard>
#include <QGuiApplication>
#include <QKeyEvent>
#include <QPainter>

namespace stillroom::ui {

namespace {

class PlotInterface final : public QAccessibleWidget {
  public:
    explicit PlotInterface(PlotWidget* plot) : QAccessibleWidget(plot, QAccessible::Chart) {}

    QString text(QAccessible::Text which) const override {
        const auto* plot = qobject_cast<const PlotWidget*>(widget());
        if (plot && which == QAccessible::Description) return plot->words();
        if (plot && which == QAccessible::Value) return plot->tableText();
        return QAccessibleWidget::text(which);
    }
};

QAccessibleInterface* plotInterface(const QString&, QObject* object) {
    auto* plot = qobject_cast<PlotWidget*>(object);
    return plot ? new PlotInterface(plot) : nullptr;
}

} // namespace

QString joinedRows(const QList<QStringList>& rows) {
    QString text;
    for (const auto& row : rows)
        text += row.join(u'\t') + u'\n';
    return text;
}

PlotWidget::PlotWidget(const QString& name, QWidget* parent) : QWidget(parent) {
    static const bool installed = [] {
        QAccessible::installFactory(plotInterface);
        return true;
    }();
    Q_UNUSED(installed);
    setAccessibleName(name);
    setFocusPolicy(Qt::StrongFocus);
    connect(&Theme::current(), &Theme::changed, this, [this] {
        updateGeometry();
        update();
    });
}

QString PlotWidget::tableText() const {
    return joinedRows(rows());
}

void PlotWidget::valuesChanged() {
    if (QAccessible::isActive()) {
        QAccessibleEvent event(this, QAccessible::DescriptionChanged);
        QAccessible::updateAccessibility(&event);
    }
    update();
}

void PlotWidget::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    painter.fillRect(rect(), Theme::current().color(Token::Page));
    paint(painter);
    if (hasFocus() && !framesItself()) {
        const double in = Theme::current().px(4);
        paintFocusFrame(painter, QRectF(rect()).adjusted(in, in, -in, -in), Theme::current().look());
    }
}

void PlotWidget::keyPressEvent(QKeyEvent* event) {
    if (event->matches(QKeySequence::Copy))
        QGuiApplication::clipboard()->setText(tableText());
    else
        QWidget::keyPressEvent(event);
}

void PlotWidget::focusInEvent(QFocusEvent* event) {
    QWidget::focusInEvent(event);
    update();
}

void PlotWidget::focusOutEvent(QFocusEvent* event) {
    QWidget::focusOutEvent(event);
    update();
}

} // namespace stillroom::ui
