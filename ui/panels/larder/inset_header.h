#pragma once

#include <QHeaderView>

namespace stillroom::ui {

// Column names that stand exactly over what the delegates paint below them.
class InsetHeader : public QHeaderView {
    Q_OBJECT

  public:
    explicit InsetHeader(QWidget* parent = nullptr);

  protected:
    void paintSection(QPainter* painter, const QRect& rect, int section) const override;
};

} // namespace stillroom::ui
