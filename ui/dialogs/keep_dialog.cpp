#include "ui/dialogs/keep_dialog.h"

#include "ui/session/draft_session.h"
#include "ui/text/border.h"
#include "ui/text/revision_label.h"
#include "ui/theme/theme.h"

#include <QDialogButtonBox>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QVBoxLayout>

namespace stillroom::ui {

KeepDialog::KeepDialog(DraftSession& session, QWidget* parent)
    : QDialog(parent),
      m_reason(new QLineEdit(this)) {
    const auto& theme = Theme::current();
    setWindowTitle(tr("Keep a revision"));
    const QString changes = session.changesInWords();
    auto* title = new QLabel(fromCore(session.now().words.name), this);
    title->setFont(theme.font(Type::Title));
    auto* what = new QLabel(this);
    what->setWordWrap(true);
    what->setTextFormat(Qt::PlainText);
    what->setFont(theme.font(Type::Control));
    what->setText(
        session.base()
            ? tr("Since %1: %2").arg(revisionLabel(session.drink().form, session.base()->number), changes)
            : tr("The first revision. From here on, every change is shown against it."));
    auto* label = new QLabel(tr("&Why is it kept?"), this);
    label->setFont(theme.font(Type::Heading));
    label->setBuddy(m_reason);
    m_reason->setAccessibleName(tr("Reason"));
    m_reason->setFont(theme.font(Type::Body));
    m_reason->setText(changes);
    m_reason->setPlaceholderText(tr("the idea, nothing more"));
    m_reason->selectAll();
    auto* buttons = new QDialogButtonBox(this);
    auto* keep = buttons->addButton(tr("Keep"), QDialogButtonBox::AcceptRole);
    keep->setProperty("act", true);
    keep->setDefault(true);
    buttons->addButton(tr("Not yet"), QDialogButtonBox::RejectRole);
    connect(buttons, &QDialogButtonBox::accepted, this, &QDialog::accept);
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
    connect(this, &QDialog::accepted, this, [this] { Q_EMIT keepAsked(m_reason->text().trimmed()); });

    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(20, 16, 20, 16);
    layout->setSpacing(theme.pxInt(8));
    layout->addWidget(title);
    layout->addWidget(what);
    layout->addSpacing(theme.pxInt(8));
    layout->addWidget(label);
    layout->addWidget(m_reason);
    layout->addSpacing(theme.pxInt(8));
    layout->addWidget(buttons);
    setMinimumWidth(theme.pxInt(460));
    m_reason->setFocus();
}

} // namespace stillroom::ui
