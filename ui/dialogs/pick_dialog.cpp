#include "ui/dialogs/pick_dialog.h"

#include "core/base/text.h"
#include "ui/text/border.h"
#include "ui/theme/theme.h"

#include <QDialogButtonBox>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QListWidget>
#include <QPushButton>
#include <QVBoxLayout>

#include <algorithm>

namespace stillroom::ui {

namespace {

constexpr int kRowRole = PickDelegate::kRowRole;
constexpr int kMostShown = 300; // of a long list: typing finds the rest

} // namespace

PickDialog::PickDialog(const QString& title, const QString& about, std::vector<PickRow> rows, QWidget* parent)
    : QDialog(parent),
      m_rows(std::move(rows)),
      m_filter(new QLineEdit(this)),
      m_list(new QListWidget(this)),
      m_nothing(new QLabel(this)) {
    const auto& theme = Theme::current();
    setWindowTitle(title);
    auto* head = new QLabel(title, this);
    head->setFont(theme.font(Type::Title));
    auto* said = new QLabel(about, this);
    said->setFont(theme.font(Type::Control));
    said->setWordWrap(true);
    m_filter->setAccessibleName(tr("Part of its name"));
    m_filter->setPlaceholderText(tr("part of its name"));
    m_filter->installEventFilter(this);
    m_list->setAccessibleName(title);
    m_list->setItemDelegate(new PickDelegate(m_rows, m_list));
    m_list->setFrameShape(QFrame::NoFrame);
    m_list->setVerticalScrollMode(QAbstractItemView::ScrollPerPixel);
    m_list->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    m_nothing->setFont(theme.font(Type::Control));
    auto* buttons = new QDialogButtonBox(this);
    auto* choose = buttons->addButton(tr("Choose"), QDialogButtonBox::AcceptRole);
    choose->setProperty("act", true);
    choose->setDefault(true);
    buttons->addButton(tr("Leave it"), QDialogButtonBox::RejectRole);
    connect(buttons, &QDialogButtonBox::accepted, this, [this] { take(); });
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
    connect(m_filter, &QLineEdit::textEdited, this, [this] { fill(); });
    connect(m_list, &QListWidget::itemActivated, this, [this] { take(); });

    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(theme.pxInt(20), theme.pxInt(16), theme.pxInt(20), theme.pxInt(16));
    layout->setSpacing(theme.pxInt(8));
    layout->addWidget(head);
    if (!about.isEmpty()) layout->addWidget(said);
    said->setVisible(!about.isEmpty());
    layout->addWidget(m_filter);
    layout->addWidget(m_list, 1);
    layout->addWidget(m_nothing);
    layout->addWidget(buttons);
    resize(theme.pxInt(520), theme.pxInt(460));
    fill();
    m_filter->setFocus();
}

void PickDialog::setRows(std::vector<PickRow> rows) {
    m_list->clear();
    m_rows = std::move(rows);
    fill();
}

void PickDialog::fill() {
    const auto wanted = base::foldedWords(toCore(m_filter->text()));
    m_list->clear();
    int current = 0;
    int found = 0;
    for (std::size_t i = 0; i < m_rows.size(); ++i) {
        const auto& row = m_rows[i];
        const auto all = base::fold(
            toCore(QString(row.title + QLatin1Char(' ') + row.aside + QLatin1Char(' ') + row.detail)));
        if (!std::all_of(wanted.begin(), wanted.end(),
                         [&](const std::string& word) { return all.find(word) != std::string::npos; }))
            continue;
        if (++found > kMostShown) continue;
        auto* item = new QListWidgetItem(spokenRow(row), m_list);
        item->setData(kRowRole, static_cast<int>(i));
        if (row.current) current = m_list->count() - 1;
    }
    m_list->setCurrentRow(m_list->count() > 0 ? current : -1);
    m_nothing->setText(found == 0 ? tr("Nothing here has that in its name.")
                                  : tr("%1 more: type part of the name.").arg(found - kMostShown));
    m_nothing->setVisible(found == 0 || found > kMostShown);
}

int PickDialog::chosen() const {
    const auto* item = m_list->currentItem();
    return item == nullptr ? -1 : item->data(kRowRole).toInt();
}

void PickDialog::take() {
    const int row = chosen();
    if (row < 0) return;
    accept();
    Q_EMIT picked(row);
}

bool PickDialog::eventFilter(QObject* object, QEvent* event) {
    if (object == m_filter && event->type() == QEvent::KeyPress) {
        const auto* key = static_cast<QKeyEvent*>(event);
        const int step = key->key() == Qt::Key_Down       ? 1
                         : key->key() == Qt::Key_Up       ? -1
                         : key->key() == Qt::Key_PageDown ? 8
                         : key->key() == Qt::Key_PageUp   ? -8
                                                          : 0;
        if (step != 0 && m_list->count() > 0) {
            m_list->setCurrentRow(std::clamp(m_list->currentRow() + step, 0, m_list->count() - 1));
            return true;
        }
    }
    return QDialog::eventFilter(object, event);
}

} // namespace stillroom::ui
