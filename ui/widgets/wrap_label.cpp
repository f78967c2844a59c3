#include "ui/widgets/wrap_label.h"

namespace stillroom::ui {

WrapLabel::WrapLabel(QWidget* parent) : QLabel(parent) {
    setWordWrap(true);
    setTextFormat(Qt::PlainText);
}

int WrapLabel::heightForWidth(int width) const {
    for (const Known& known : m_known)
        if (known.width == width && known.text == text() && known.font == font() &&
            known.margins == contentsMargins())
            return known.height;
    Known& known = m_known[m_next];
    m_next = (m_next + 1) % m_known.size();
    known = {width, text(), font(), contentsMargins(), QLabel::heightForWidth(width)};
    return known.height;
}

} // namespace stillroom::ui
