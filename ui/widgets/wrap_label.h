#pragma once

#include <QLabel>

#include <array>

namespace stillroom::ui {

// A paragraph that knows its height. QLabel lays its whole text out anew at every question a layout asks,
// and a page of long notes is asked several times for each key typed anywhere on it.
class WrapLabel : public QLabel {
    Q_OBJECT

  public:
    explicit WrapLabel(QWidget* parent = nullptr);

    int heightForWidth(int width) const override;

  private:
    struct Known {
        int width = -1;
        QString text;
        QFont font;
        QMargins margins;
        int height = 0;
    };
    // A layout asks for the least width, the proposed one and the one it gave.
    mutable std::array<Known, 3> m_known;
    mutable std::size_t m_next = 0;
};

} // namespace stillroom::ui
