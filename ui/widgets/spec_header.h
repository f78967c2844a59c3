#pragma once

#include <QHeaderView>

namespace stillroom::ui {

// Column names in captions, two lines where a unit stands under a name.
class SpecHeader : public QHeaderView {
    Q_OBJECT

  public:
    explicit SpecHeader(QWidget* parent = nullptr);
    QSize sizeHint() const override;

  protected:
    void paintSection(QPainter* painter, const QRect& rect, int logicalIndex) const override;
};

} // namespace stillroom::ui
