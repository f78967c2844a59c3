#include "ui/dialogs/line_dialog.h"

#include "ui/theme/theme.h"
#include "ui/widgets/wrap_label.h"

#include <QDialogButtonBox>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QVBoxLayout>

namespace stillroom::ui {

namespace {

constexpr int kLongest = 400;

} // namespace

LineDialog::LineDialog(const Ask& ask, QWidget* parent) : QDialog(parent), m_line(new QLineEdit(this)) {
    const auto& theme = Theme::current();
    setWindowTitle(ask.title);
    auto* title = new QLabel(ask.title, this);
    title->setFont(theme.font(Type::Title));
    auto* about = new WrapLabel(this);
    about->setText(ask.about);
    about->setFont(theme.font(Type::Control));
    about->setVisible(!ask.about.isEmpty());
    auto* label = new QLabel(ask.label, this);
    label->setFont(theme.font(Type::Heading));
    label->setBuddy(m_line);
    m_line->setAccessibleName(QString(ask.label).remove(QLatin1Char('&')));
    m_line->setFont(theme.font(Type::Body));
    m_line->setMaxLength(kLongest);
    m_line->setText(ask.value);
    m_line->setPlaceholderText(ask.example);
    m_line->selectAll();
    auto* buttons = new QDialogButtonBox(this);
    auto* act = buttons->addButton(ask.act, QDialogButtonBox::AcceptRole);
    act->setProperty("act", true);
    act->setDefault(true);
    buttons->addButton(tr("Leave it"), QDialogButtonBox::RejectRole);
    connect(buttons, &QDialogButtonBox::accepted, this, &QDialog::accept);
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
    connect(this, &QDialog::accepted, this, [this] { Q_EMIT answered(m_line->text().trimmed()); });
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(theme.pxInt(20), theme.pxInt(16), theme.pxInt(20), theme.pxInt(16));
    layout->setSpacing(theme.pxInt(8));
    for (auto* part : std::initializer_list<QWidget*>{title, about, label, m_line})
        layout->addWidget(part);
    layout->addSpacing(theme.pxInt(8));
    layout->addWidget(buttons);
    setMinimumWidth(theme.pxInt(460));
    m_line->setFocus();
}

} // namespace stillroom::ui
