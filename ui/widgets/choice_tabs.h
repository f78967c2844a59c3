#pragma once

#include <QTabBar>

namespace stillroom::ui {

// A few words of which one holds, the chosen one underlined: "per serve · per 100 ml". Arrows choose.
class ChoiceTabs : public QTabBar {
    Q_OBJECT

  public:
    ChoiceTabs(const QString& name, const QStringList& choices, QWidget* parent = nullptr);

  protected:
    void paintEvent(QPaintEvent* event) override;
    QSize tabSizeHint(int index) const override;
    QSize minimumTabSizeHint(int index) const override;
};

} // namespace stillroom::ui
