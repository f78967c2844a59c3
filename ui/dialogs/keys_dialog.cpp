#include "ui/dialogs/keys_dialog.h"

#include "ui/actions/actions.h"
#include "ui/theme/theme.h"

#include <QCoreApplication>
#include <QDialogButtonBox>
#include <QHeaderView>
#include <QScreen>
#include <QStyledItemDelegate>
#include <QTableWidget>
#include <QVBoxLayout>

namespace stillroom::ui {

namespace {

struct TypedKey {
    const char* key;
    const char* does;
};

// Keys that act inside a field, and so are no actions.
constexpr TypedKey kTyped[] = {
    {QT_TRANSLATE_NOOP("Keys", "Enter"), QT_TRANSLATE_NOOP("Keys", "Next line, while writing lines")},
    {QT_TRANSLATE_NOOP("Keys", "Tab"), QT_TRANSLATE_NOOP("Keys", "Next cell")},
    {QT_TRANSLATE_NOOP("Keys", "Up, Down"),
     QT_TRANSLATE_NOOP("Keys", "In an amount: the next step of a jigger")},
    {QT_TRANSLATE_NOOP("Keys", "Esc"), QT_TRANSLATE_NOOP("Keys", "As it was before this cell was opened")},
    {QT_TRANSLATE_NOOP("Keys", "1 … 9"), QT_TRANSLATE_NOOP("Keys", "Answer a question about a line")},
};

// Lines with air between them.
class RowDelegate : public QStyledItemDelegate {
  public:
    using QStyledItemDelegate::QStyledItemDelegate;
    QSize sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const override {
        return QStyledItemDelegate::sizeHint(option, index) + QSize(0, Theme::current().pxInt(8));
    }
    void paint(QPainter* painter, const QStyleOptionViewItem& option,
               const QModelIndex& index) const override {
        auto inner = option;
        const int air = Theme::current().pxInt(4);
        inner.rect.adjust(0, air, 0, -air);
        inner.state &= ~QStyle::State_HasFocus; // nothing here is chosen
        QStyledItemDelegate::paint(painter, inner, index);
    }
};

} // namespace

QString KeysDialog::asText() {
    QString text;
    for (const auto& info : Actions::all())
        text += Actions::text(info.act) + QLatin1Char('\t') + Actions::keyText(info.act) + QLatin1Char('\t') +
                Actions::help(info.act) + QLatin1Char('\n');
    return text;
}

KeysDialog::KeysDialog(QWidget* parent) : QDialog(parent) {
    const auto& theme = Theme::current();
    setWindowTitle(tr("Keys"));
    const auto& all = Actions::all();
    const int typed = static_cast<int>(std::size(kTyped));
    auto* table = new QTableWidget(static_cast<int>(all.size()) + typed, 3, this);
    table->setAccessibleName(tr("Keys"));
    table->setHorizontalHeaderLabels({tr("Key"), tr("Action"), tr("What it does")});
    table->verticalHeader()->hide();
    table->setEditTriggers(QAbstractItemView::NoEditTriggers);
    table->setSelectionMode(QAbstractItemView::NoSelection);
    table->setShowGrid(false);
    table->setFrameShape(QFrame::NoFrame);
    const auto put = [&](int row, const QString& key, const QString& text, const QString& help) {
        int column = 0;
        for (const auto& words : {key, text, help}) {
            auto* item = new QTableWidgetItem(words);
            item->setTextAlignment(Qt::AlignLeft | Qt::AlignTop);
            table->setItem(row, column++, item);
        }
    };
    int row = 0;
    for (const auto& key : kTyped) {
        put(row, QCoreApplication::translate("Keys", key.key), QString(),
            QCoreApplication::translate("Keys", key.does));
        ++row;
    }
    for (const auto& info : all) {
        put(row, Actions::keyText(info.act), Actions::text(info.act), Actions::help(info.act));
        ++row;
    }
    // Keys and names whole; what an action does is broken into lines, so that nothing lies to the side.
    table->setItemDelegate(new RowDelegate(table));
    table->horizontalHeader()->setFixedHeight(theme.pxInt(28));
    table->setWordWrap(true);
    table->setTextElideMode(Qt::ElideNone);
    table->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    table->setVerticalScrollMode(QAbstractItemView::ScrollPerPixel);
    table->horizontalHeader()->setDefaultAlignment(Qt::AlignLeft | Qt::AlignVCenter);
    table->horizontalHeader()->setSectionResizeMode(0, QHeaderView::ResizeToContents);
    table->horizontalHeader()->setSectionResizeMode(1, QHeaderView::ResizeToContents);
    table->horizontalHeader()->setSectionResizeMode(2, QHeaderView::Stretch);
    table->verticalHeader()->setSectionResizeMode(QHeaderView::ResizeToContents);
    auto* buttons = new QDialogButtonBox(QDialogButtonBox::Close, this);
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
    auto* layout = new QVBoxLayout(this);
    layout->addWidget(table);
    layout->addWidget(buttons);
    resize(QSize(theme.pxInt(820), theme.pxInt(640)).boundedTo(screen()->availableSize()));
}

} // namespace stillroom::ui
