#include "ui/panels/bin/bin_page.h"

#include "ui/actions/actions.h"
#include "ui/theme/banner.h"
#include "ui/theme/theme.h"
#include "ui/widgets/wrap_label.h"

#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QListWidget>
#include <QPushButton>
#include <QVBoxLayout>

#include <algorithm>

namespace stillroom::ui {

using namespace Qt::Literals::StringLiterals;

namespace {

void setInk(QWidget* widget, Token token) {
    auto palette = widget->palette();
    palette.setColor(QPalette::WindowText, Theme::current().color(token));
    widget->setPalette(palette);
}

} // namespace

BinPage::BinPage(WorkbookSession& book, Attempt attempt, QWidget* parent)
    : QWidget(parent),
      m_book(book),
      m_attempt(std::move(attempt)),
      m_title(new QLabel(tr("Bin"))),
      m_about(new QLabel),
      m_nothing(new WrapLabel),
      m_banner(new Banner),
      m_back(new QPushButton(tr("Brin&g back  Enter"))),
      m_empty(new QPushButton(tr("E&mpty the bin…"))),
      m_list(new QListWidget),
      m_head(new QHBoxLayout) {
    setAccessibleName(tr("Bin"));
    setWindowTitle(tr("Bin"));
    setProperty("keyHints", QStringList{tr("Enter"), tr("bring back")});
    setAutoFillBackground(true);
    setBackgroundRole(QPalette::Base);
    m_back->setProperty("act", true);
    m_back->setAccessibleName(tr("Bring the chosen one back"));
    for (auto* button : {m_back, m_empty})
        button->setAutoDefault(false);
    m_nothing->setText(
        tr("Nothing is in the bin. %1 puts a drink here; it stays in the book, with everything "
           "that was said of it, until the bin is emptied.")
            .arg(Actions::keyText(Act::BinDrink)));
    m_nothing->setAlignment(Qt::AlignTop | Qt::AlignLeft);
    m_list->setAccessibleName(tr("In the bin"));
    m_list->setItemDelegate(new PickDelegate(m_shown, m_list));
    m_list->setFrameShape(QFrame::NoFrame);
    m_list->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    m_list->setVerticalScrollMode(QAbstractItemView::ScrollPerPixel);
    m_list->installEventFilter(this);
    m_head->addWidget(m_title, 0, Qt::AlignBaseline);
    m_head->addWidget(m_about, 1, Qt::AlignBaseline);
    m_head->addWidget(m_empty);
    m_head->addWidget(m_back);
    m_body = new QVBoxLayout(this);
    m_body->setContentsMargins(0, 0, 0, 0);
    m_body->setSpacing(0);
    m_body->addLayout(m_head);
    m_body->addWidget(m_banner);
    m_body->addWidget(m_nothing, 1);
    m_body->addWidget(m_list, 1);
    m_banner->hide();
    setFocusProxy(m_list);
    connect(m_list, &QListWidget::itemDoubleClicked, this, &BinPage::bringBackCurrent);
    connect(m_back, &QPushButton::clicked, this, &BinPage::bringBackCurrent);
    connect(m_empty, &QPushButton::clicked, this, [this] { Q_EMIT emptyAsked(binCountWords(m_rows)); });
    connect(m_banner, &Banner::actTriggered, this, [this] { m_banner->show(BannerKind::Gap, {}); });
    dress();
    reload();
}

QString BinPage::told() const {
    return m_about->text();
}

void BinPage::reload() {
    const int row = m_list->currentRow();
    m_list->clear();
    m_attempt([this] { m_rows = binRows(m_book); });
    m_shown.clear();
    for (const auto& each : m_rows)
        m_shown.push_back(each.row);
    for (std::size_t i = 0; i < m_shown.size(); ++i) {
        auto* item = new QListWidgetItem(spokenRow(m_shown[i]), m_list);
        item->setData(PickDelegate::kRowRole, static_cast<int>(i));
    }
    m_list->setCurrentRow(std::clamp(row, 0, std::max(0, m_list->count() - 1)));
    const bool any = !m_rows.empty();
    const bool writable = !m_book.book().isReadOnly();
    m_about->setText(any ? binCountWords(m_rows) : QString());
    m_nothing->setVisible(!any);
    m_list->setVisible(any);
    m_back->setEnabled(any && writable);
    m_empty->setEnabled(any && writable);
    if (!any) setFocus();
}

void BinPage::bringBackCurrent() {
    const int at = m_list->currentRow();
    if (at < 0 || static_cast<std::size_t>(at) >= m_rows.size() || m_book.book().isReadOnly()) return;
    const auto row = m_rows[static_cast<std::size_t>(at)];
    if (!m_attempt([&] { bringBack(m_book, row); })) return;
    reload();
    m_list->setFocus(Qt::OtherFocusReason);
    Q_EMIT said(tr("%1 is back.").arg(row.name));
}

void BinPage::tellEmptied(const store::EmptiedBin& emptied) {
    QStringList stays;
    for (const auto& needed : emptied.needed)
        stays << stillNeededWords(needed);
    if (emptied.backup.empty()) {
        m_banner->show(BannerKind::Gap, {tr("Nothing left the book."), stays.join(u' '), tr("Close this")});
        return;
    }
    QString told = tr("The file as it was stands at %1; open it to look something up.")
                       .arg(QString::fromStdString(emptied.backup));
    if (!stays.isEmpty()) told += u' ' + stays.join(u' ');
    m_banner->show(BannerKind::Gap, {tr("Gone from the book for good: %1.").arg(emptiedWords(emptied)), told,
                                     tr("Close this")});
}

bool BinPage::eventFilter(QObject* object, QEvent* event) {
    if (object == m_list && event->type() == QEvent::KeyPress) {
        const auto* key = static_cast<QKeyEvent*>(event);
        if (key->key() == Qt::Key_Return || key->key() == Qt::Key_Enter) {
            bringBackCurrent();
            return true;
        }
    }
    return QWidget::eventFilter(object, event);
}

void BinPage::keyPressEvent(QKeyEvent* event) {
    if (event->key() == Qt::Key_Escape)
        Q_EMIT closed();
    else
        QWidget::keyPressEvent(event);
}

void BinPage::changeEvent(QEvent* event) {
    QWidget::changeEvent(event);
    if (event->type() == QEvent::StyleChange) dress();
}

void BinPage::dress() {
    const auto& theme = Theme::current();
    m_head->setContentsMargins(theme.pxInt(16), theme.pxInt(8), theme.pxInt(16), theme.pxInt(8));
    m_head->setSpacing(theme.pxInt(12));
    m_title->setFont(theme.font(Type::Title));
    m_about->setFont(theme.font(Type::Control));
    setInk(m_title, Token::Ink);
    setInk(m_about, Token::Ink2);
    m_nothing->setFont(theme.font(Type::Body));
    setInk(m_nothing, Token::Ink2);
    m_nothing->setContentsMargins(theme.pxInt(16), theme.pxInt(8), theme.pxInt(16), 0);
    m_nothing->setMaximumWidth(theme.pxInt(620));
}

} // namespace stillroom::ui
