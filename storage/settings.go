package storage

import (
	"encoding/json"
	"errors"

	bolt "go.etcd.io/bbolt"
)

// Setting reads what was kept under name; false when there is nothing.
func (n *Notebook) Setting(name string, into any) (bool, error) {
	var body []byte
	err := n.view(func(tx *bolt.Tx) error {
		b := tx.Bucket([]byte(bucketSettings))
		if b == nil {
			return damage(n.path, errors.New("the settings are missing"))
		}
		raw := b.Get([]byte(name))
		if raw == nil {
			return nil
		}
		var err error
		body, err = unseal(placeSetting(name), raw)
		return n.setting(name, err)
	})
	if err != nil || body == nil {
		return false, err
	}
	if err := json.Unmarshal(body, into); err != nil {
		return false, n.setting(name, err)
	}
	return true, nil
}

// setting words an error in a kept setting.
func (n *Notebook) setting(name string, err error) error {
	if err == nil {
		return nil
	}
	return trouble(ErrDamaged, err, "Set it again.", "In the notebook %s the setting “%s” cannot be read: %v.", n.path, name, err)
}

// PutSetting keeps a small value under name.
func (n *Notebook) PutSetting(name string, value any) error {
	if name == "" || len(name) > longestID {
		return trouble(ErrInvalid, nil, "Report this; it is a fault of the program.", "A setting has no usable name.")
	}
	return n.update(func(tx *bolt.Tx) error {
		b := tx.Bucket([]byte(bucketSettings))
		if b == nil {
			return damage(n.path, errors.New("the settings are missing"))
		}
		return encode(b, []byte(name), placeSetting(name), value)
	})
}
